import { z } from 'zod';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { mayReadMetrics } from '../metrics/mayReadMetrics.ts';
import { formatOpenMetrics, type MetricFamily, openMetricsType } from '../metrics/openMetrics.ts';
import type { OperationsPort } from '../port.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { createShortCache } from '../views/shortCache.ts';

const readinessSchema = z.object({
  ready: z.boolean(),
  checks: z.array(z.object({ name: z.string(), ready: z.boolean(), text: z.string() })),
});
type Readiness = z.infer<typeof readinessSchema>;

/** What answers for a process, with screens or without. */
export interface MachineRoom {
  readonly operations: OperationsPort;
  readonly metricsToken: string | null;
  /** Null in a process without screens. */
  readonly openScreens: (() => number) | null;
}

/** What those who look after the machine ask: is it alive, can it do its work, how much of it. */
export function machineRoomRoutes(app: App, { operations, config, live }: House): void {
  addMachineRoom(app, { operations, metricsToken: config.metricsToken ?? null, openScreens: live.count });
}

/** The same three addresses, for any process. */
export function addMachineRoom(app: App, room: MachineRoom): void {
  app.route({
    method: 'GET',
    url: '/healthz',
    config: { access: 'public' },
    schema: { hide: true, response: { 200: z.object({ ok: z.literal(true) }) } },
    // Alive and nothing more: what restarts a program by this must not restart it because a database is away.
    handler: async () => ({ ok: true as const }),
  });

  // Anybody may ask: the stores are asked once for all who ask within two seconds.
  const readiness = createShortCache<Readiness>();
  app.route({
    method: 'GET',
    url: '/readyz',
    config: { access: 'public' },
    schema: { hide: true, response: { 200: readinessSchema, 503: readinessSchema } },
    handler: async (_request, reply) => {
      const answer = await readiness.get('all', () => readinessOf(room.operations));
      return reply.code(answer.ready ? 200 : 503).send(answer);
    },
  });

  app.route({
    method: 'GET',
    url: '/metrics',
    config: { access: 'public' },
    schema: { hide: true },
    handler: async (request, reply) => {
      const { headers, socket } = request.raw;
      const token = room.metricsToken;
      if (!mayReadMetrics({ headers, remoteAddress: socket.remoteAddress }, token)) throw refusal(token);
      const screens = room.openScreens === null ? [] : [screensFamily(room.openScreens())];
      const text = formatOpenMetrics([...(await room.operations.metrics()), ...screens]);
      return reply.type(openMetricsType).send(text);
    },
  });
}

async function readinessOf(operations: OperationsPort): Promise<Readiness> {
  const checks = await operations.readiness();
  return {
    ready: checks.every(({ isReady }) => isReady),
    checks: checks.map(({ name, isReady, text }) => ({ name, ready: isReady, text })),
  };
}

function refusal(token: string | null): ApiProblem {
  return token === null
    ? new ApiProblem('not-found', 'Metrics are for this machine only until http.metricsToken is configured.')
    : new ApiProblem('not-signed-in', 'Metrics need the header "authorization: Bearer <http.metricsToken>".');
}

function screensFamily(count: number): MetricFamily {
  return {
    name: 'tilth_web_open_screens',
    type: 'gauge',
    unit: null,
    help: 'Screens that are told of changes as they happen.',
    samples: [{ value: count }],
  };
}
