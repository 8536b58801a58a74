import { systemClock } from './clock.ts';
import { readCommandLine, usage } from './commandLine.ts';
import { describeFields, describeServices } from './configuration/describe.ts';
import { loadConfiguration } from './configuration/load.ts';
import { showConfiguration } from './configuration/show.ts';
import { createLogger } from './logger.ts';
import { openingLines } from './openingLines.ts';
import { startFailureText } from './startFailure.ts';
import { startYard } from './startYard.ts';
import { onStopSignal } from './stopSignal.ts';

/** Starts a real yard, or the services of one that this process was asked for. */
async function main(): Promise<void> {
  const { file, checkConfig, help, flags } = readCommandLine(process.argv.slice(2));
  if (help) return console.log(`${usage}\n\n${describeServices()}\n\nFields:\n${describeFields()}`);
  const configuration = loadConfiguration({ file, environment: process.env, flags });
  if (checkConfig) return console.log(showConfiguration(configuration));
  const logger = createLogger(configuration.log.level);
  const yard = await startYard({ configuration, clock: systemClock, logger });
  onStopSignal(() => yard.stop(), logger);
  for (const line of await openingLines(configuration, yard)) console.log(line);
}

main().catch((error: unknown) => {
  console.error(startFailureText(error));
  process.exitCode = 1;
});
