import { systemClock } from './clock.ts';
import type { Configuration } from './configuration/schema.ts';
import { runs } from './configuration/services.ts';
import type { RunningYard } from './startYard.ts';
import { ensureFirstSetup } from './web/startWeb.ts';

/** What a person reads when a process has started: where its doors are, and what is still missing. */
export async function openingLines(configuration: Configuration, yard: RunningYard): Promise<string[]> {
  const { only, broker, sms, modem, health } = configuration;
  const lines = ['Tilthwatch is running.'];
  const say = (name: string, text: string) => lines.push(`  ${`${name}:`.padEnd(13)} ${text}`);
  if (only !== null) say('Services', only.join(', '));
  if (yard.web) say('Screens', yard.web.publicUrl);
  if (yard.health) say('Health', `http://${health.host}:${yard.health.port}/readyz`);
  if (yard.broker) say('MQTT broker', `${broker.host}, port ${yard.broker.port}`);
  if (yard.broker?.webSocketPort) lines.push(`  MQTT over WebSocket: port ${yard.broker.webSocketPort}`);
  if (yard.ingest && broker.externalUrl !== null)
    lines.push(`  Readings come from ${new URL(broker.externalUrl).host}`);
  if (runs(configuration, 'notify') && sms === null && modem === null)
    say('Texts', 'none are sent until a gateway is configured (see README)');
  const setUpLink = yard.web && (await ensureFirstSetup(yard.records, systemClock, yard.web.publicUrl));
  if (setUpLink)
    lines.push(`\nFirst start. Open this link once, within a day, to set up your yard:\n  ${setUpLink}`);
  return lines;
}
