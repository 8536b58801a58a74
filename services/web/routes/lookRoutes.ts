import { z } from 'zod';
import { auditEntrySchema } from '../../../shared/api/audit.ts';
import { limitQuerySchema } from '../../../shared/api/common.ts';
import { quarantineSchema } from '../../../shared/api/quarantine.ts';
import { serviceSchema } from '../../../shared/api/service.ts';
import { yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { peopleNames } from '../views/names.ts';
import { quarantineView } from '../views/quarantineView.ts';
import { answers } from './answers.ts';

/** Things to look at when something is odd: quarantine, the trail of changes, the service's own numbers. */
export function lookRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/quarantine',
    config: { access: 'keeper' },
    schema: { querystring: limitQuerySchema, response: answers(quarantineSchema) },
    handler: async (request) => {
      const { quarantine } = house.records;
      const yardId = yardIdOf(request);
      const items = await quarantine.list(yardId, request.query.limit);
      return { total: await quarantine.totalOf(yardId), items: items.map(quarantineView) };
    },
  });

  app.route({
    method: 'GET',
    url: '/api/audit',
    config: { access: 'owner' },
    schema: { querystring: limitQuerySchema, response: answers(z.array(auditEntrySchema).readonly()) },
    handler: async (request) => {
      const yardId = yardIdOf(request);
      const nameOfPerson = await peopleNames(house, yardId);
      const entries = await house.records.audit.list(yardId, request.query.limit);
      return entries.map(({ yardId: _, ...entry }) => ({ ...entry, by: nameOfPerson(entry.by) }));
    },
  });

  app.route({
    method: 'GET',
    url: '/api/service',
    config: { access: 'keeper' },
    schema: { response: answers(serviceSchema) },
    handler: async () => ({
      uptimeSeconds: Math.round(process.uptime()),
      openScreens: house.live.count(),
      statistics: { ...house.statistics() },
    }),
  });

  app.route({
    method: 'GET',
    url: '/api/openapi.json',
    config: { access: 'public' },
    schema: { hide: true },
    handler: async (_request, reply) => reply.send(app.swagger()),
  });
}
