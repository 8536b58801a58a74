import { alarmReport } from '../../../shared/alarms/report.ts';
import { alarmReportSchema, reportQuerySchema } from '../../../shared/api/report.ts';
import { readReportInput } from '../../notify/port.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { alarmViewer, subjectNames } from '../views/alarmView.ts';
import { conditionName } from '../views/names.ts';
import { answers } from './answers.ts';
import { findYard, roleOf } from './find.ts';

/** The alarm report over a span: what people got, what came of it, what stands too long. */
export function reportRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/report',
    config: { access: 'keeper' },
    schema: { querystring: reportQuerySchema, response: answers(alarmReportSchema) },
    handler: async (request) => {
      const yard = await findYard(house, request);
      const { fromMs, toMs } = request.query;
      const input = await readReportInput(house.records, yard, { fromMs, toMs, nowMs: house.clock.nowMs() });
      const report = alarmReport(input);
      const view = await alarmViewer(house, yard.id, roleOf(request));
      const nameOf = await subjectNames(house, yard.id);
      const named = <A extends (typeof report.worst)[number]>(load: A) => ({
        ...load,
        subject: { ...load.subject, name: nameOf(load.subject) },
        name: conditionName(house, load.condition),
      });
      const alarms = new Map(input.alarms.map((alarm) => [alarm.id, alarm]));
      return {
        ...report,
        nowMs: input.nowMs,
        timeZone: yard.timeZone,
        worst: report.worst.map(named),
        chattering: report.chattering.map(named),
        staleNow: await Promise.all(report.staleNow.map((id) => view(alarms.get(id)!))),
      };
    },
  });
}
