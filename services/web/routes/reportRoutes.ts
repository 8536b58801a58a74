import { alarmReport } from '../../../shared/alarms/report.ts';
import type { ReportInput } from '../../../shared/alarms/reportInput.ts';
import { alarmReportSchema, reportQuerySchema } from '../../../shared/api/report.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
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
      const input = await readInput(house, yard, fromMs, toMs);
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

async function readInput(house: House, yard: Yard, fromMs: number, toMs: number): Promise<ReportInput> {
  const { records, clock } = house;
  const [people, alarms, transitions, messages, journal] = await Promise.all([
    records.people.list(yard.id),
    records.alarms.list(yard.id),
    records.alarms.transitionsBetween(yard.id, fromMs, clock.nowMs() + 1),
    records.messages.between(yard.id, fromMs, toMs),
    records.journal.forYard(yard.id, { fromMs }),
  ]);
  const { timeZone } = yard;
  const wroteTo = new Set(messages.map(({ personId }) => personId));
  return {
    ...{ timeZone, fromMs, toMs, alarms, transitions },
    nowMs: clock.nowMs(),
    people: people.filter(
      ({ id, phone, receivesTexts }) => wroteTo.has(id) || (receivesTexts && phone !== null),
    ),
    texts: messages.filter(({ idempotencyKey }) => !idempotencyKey.startsWith('test ')),
    deeds: journal.filter(({ by }) => by !== null),
  };
}
