import { z } from 'zod';
import { methodLimitsSchema, settingsSchema } from '../../../shared/api/setUp.ts';
import type { SettingsView } from '../../../shared/api/types.ts';
import { pileMethods } from '../../../shared/yard/method.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import type { SettingsPort } from '../port.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { methodLimits } from '../views/methodLimits.ts';
import { answers } from './answers.ts';

/** What a beginner wants to know before there is anything to show. */
export function setUpRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/methods',
    config: { access: 'viewer' },
    schema: {
      summary: 'Limits a new pile starts with, by method',
      response: answers(z.array(methodLimitsSchema).readonly()),
    },
    handler: async () => pileMethods.map((method) => methodLimits(house.conditions, method)),
  });

  app.route({
    method: 'GET',
    url: '/api/settings',
    config: { access: 'owner' },
    schema: {
      summary: 'What of the configuration an owner should know; nothing secret',
      response: answers(settingsSchema),
    },
    handler: async () => {
      if (house.settings === null) throw new ApiProblem('not-ready', 'This process was not told.');
      return settingsView(house, house.settings);
    },
  });
}

/** `localhost`, 127.x and ::1 are this machine alone. */
const isLoopback = (host: string) => host === 'localhost' || host === '::1' || host.startsWith('127.');

function settingsView(house: House, settings: SettingsPort): SettingsView {
  const { isOwnBroker, heartbeatIsSet, heartbeatMinutes, lastHeartbeatMs, outageMinutes, rawDays } = settings;
  return {
    publicUrl: house.publicUrl(),
    screensOnThisMachineOnly: isLoopback(settings.httpHost),
    brokerOnThisMachineOnly: isOwnBroker && isLoopback(settings.brokerHost),
    isHttps: house.publicUrl().startsWith('https:'),
    broker: { ...house.config.mqtt, isOwn: isOwnBroker },
    heartbeat: { isSet: heartbeatIsSet, everyMinutes: heartbeatMinutes, lastMs: lastHeartbeatMs() },
    outageMinutes,
    rawDays,
  };
}
