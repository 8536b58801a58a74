import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { eventually } from './eventually.ts';
import { gatherOutput } from './gatherOutput.ts';

const program = fileURLToPath(new URL('../../services/main.ts', import.meta.url));

/** The real program, started as `npm start` starts it. */
export interface YardProcess {
  readonly url: string;
  /** Port of the built-in MQTT broker; null with a broker of the yard's own. */
  readonly brokerPort: number | null;
  /** Token of the printed first set-up link; null when the yard has people. */
  readonly setUpToken: string | null;
  output(): string;
  /** Resolves to the exit code; null after SIGKILL. */
  stop(signal?: 'SIGTERM' | 'SIGKILL'): Promise<number | null>;
}

/** Starts the program on free ports with its data in `dataFolder`; `flags` as on its command line. */
export async function startYardProcess(
  dataFolder: string,
  flags: readonly string[] = [],
): Promise<YardProcess> {
  const words = [
    '--dataFolder',
    dataFolder,
    '--http.port',
    '0',
    '--broker.port',
    '0',
    '--log.level',
    'warn',
    ...flags,
  ];
  const child: ChildProcess = spawn(process.execPath, [program, ...words], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const output = gatherOutput(child);
  await eventually(
    'the program says that it runs',
    () => {
      if (child.exitCode !== null) throw new Error(`the program ended with ${child.exitCode}:\n${output()}`);
      return /Tilthwatch is running[\s\S]*Screens: +\S+/.test(output()) && output().endsWith('\n');
    },
    90_000,
  );
  // The set-up link follows a moment later at a first start.
  await new Promise((resolve) => setTimeout(resolve, 300));
  const brokerPort = /MQTT broker: .* port (\d+)/.exec(output())?.[1];
  return {
    url: /Screens: +(\S+)/.exec(output())![1]!,
    brokerPort: brokerPort === undefined ? null : Number(brokerPort),
    setUpToken: /#\/set-up\/(\S+)/.exec(output())?.[1] ?? null,
    output,
    async stop(signal = 'SIGTERM') {
      if (child.exitCode !== null || child.signalCode !== null) return child.exitCode;
      const gone = once(child, 'exit');
      child.kill(signal);
      await gone;
      return child.exitCode;
    },
  };
}
