import { systemClock } from './clock.ts';
import { readCommandLine, usage } from './commandLine.ts';
import { describeFields } from './configuration/describe.ts';
import { loadConfiguration } from './configuration/load.ts';
import { showConfiguration } from './configuration/show.ts';
import { createLogger } from './logger.ts';
import { startFailureText } from './startFailure.ts';
import { startYard } from './startYard.ts';
import { onStopSignal } from './stopSignal.ts';
import { ensureFirstSetup } from './web/startWeb.ts';

/** Starts a real yard: all services in one process, data in the data folder. */
async function main(): Promise<void> {
  const { file, checkConfig, help, flags } = readCommandLine(process.argv.slice(2));
  if (help) return console.log(`${usage}\n\nFields:\n${describeFields()}`);
  const configuration = loadConfiguration({ file, environment: process.env, flags });
  if (checkConfig) return console.log(showConfiguration(configuration));
  const logger = createLogger(configuration.log.level);
  const yard = await startYard({ configuration, clock: systemClock, logger });
  onStopSignal(() => yard.stop(), logger);
  const setUpLink = await ensureFirstSetup(yard.records, systemClock, yard.web.publicUrl);
  console.log(`Tilthwatch is running.\n  Screens:      ${yard.web.publicUrl}`);
  if (yard.broker) console.log(`  MQTT broker:  ${configuration.broker.host}, port ${yard.broker.port}`);
  if (yard.broker?.webSocketPort) console.log(`  MQTT over WebSocket: port ${yard.broker.webSocketPort}`);
  if (yard.broker === null)
    console.log(`  Readings come from ${new URL(configuration.broker.externalUrl!).host}`);
  if (configuration.sms === null)
    console.log('  Texts:        none are sent until a gateway is configured (see README)');
  if (setUpLink)
    console.log(`\nFirst start. Open this link once, within a day, to set up your yard:\n  ${setUpLink}`);
}

main().catch((error: unknown) => {
  console.error(startFailureText(error));
  process.exitCode = 1;
});
