import { afterEach, expect, it } from 'vitest';
import type { MethodLimits } from '../../../shared/api/types.ts';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';

let web: TestWeb;
afterEach(() => web.close());

const settings = {
  ...{ httpHost: '0.0.0.0', brokerHost: '127.0.0.1', isOwnBroker: true },
  ...{ heartbeatIsSet: true, heartbeatMinutes: 5, lastHeartbeatMs: () => 77 },
  ...{ outageMinutes: 10, rawDays: null },
};

it('a method tells the limits a pile of it starts with, and only those it has', async () => {
  web = await openTestWeb();
  const methods: MethodLimits[] = (await web.call('viewer', 'GET', '/api/methods')).json();
  const of = (name: string) => methods.find(({ method }) => method === name);
  // 71 C: North Carolina DEQ fire precaution, as in the table of conditions.
  expect(of('static-cage')).toMatchObject({
    ceilingCelsius: 71,
    fireCelsius: 80,
    tooLongDays: 14,
    neverHeatedDays: 4,
  });
  expect(of('worm-bed')).toMatchObject({
    tooLongDays: null,
    neverHeatedDays: null,
    keepFromCelsius: 5,
    keepToCelsius: 28,
  });
  expect(of('turned-windrow')).toMatchObject({ tooLongDays: 60, keepFromCelsius: null });
});

it('an owner is told what of the configuration matters, and who cannot reach it', async () => {
  web = await openTestWeb({}, { settings });
  expect((await web.call('owner', 'GET', '/api/settings')).json()).toEqual({
    ...{ publicUrl: 'http://yard.example', isHttps: false },
    ...{ screensOnThisMachineOnly: false, brokerOnThisMachineOnly: true },
    broker: { host: '127.0.0.1', port: 1883, tls: false, isOwn: true },
    heartbeat: { isSet: true, everyMinutes: 5, lastMs: 77 },
    ...{ outageMinutes: 10, rawDays: null },
  });
  expect((await web.call('keeper', 'GET', '/api/settings')).statusCode).toBe(403);
});
