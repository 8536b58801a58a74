import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { eventually } from './eventually.ts';
import { gatherOutput } from './gatherOutput.ts';
import { readOpenMetrics } from './readOpenMetrics.ts';

const program = fileURLToPath(new URL('../../services/main.ts', import.meta.url));

/** Some services of a yard in a process of their own, started as `npm start -- --only ...` starts them. */
export interface ServiceProcess {
  readonly only: string;
  /** Where it answers for itself. */
  readonly url: string;
  output(): string;
  /** Its name among the leases. */
  processId(): Promise<string>;
  metrics(): Promise<ReadonlyMap<string, number>>;
  readiness(): Promise<{
    readonly ready: boolean;
    readonly checks: readonly { name: string; text: string }[];
  }>;
  signal(signal: 'SIGSTOP' | 'SIGCONT'): void;
  /** Resolves to the exit code; null after SIGKILL. */
  stop(signal?: 'SIGTERM' | 'SIGKILL'): Promise<number | null>;
}

/** Starts some services on free ports; the data folder is its own and goes with it. */
export async function startServices(only: string, flags: readonly string[]): Promise<ServiceProcess> {
  const folder = mkdtempSync(join(tmpdir(), 'tilth-services-'));
  const own = ['--only', only, '--dataFolder', folder, '--log.level', 'warn'];
  const ports = ['--http.port', '0', '--health.port', '0', '--broker.port', '0'];
  const child: ChildProcess = spawn(process.execPath, [program, ...own, ...ports, ...flags], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const output = gatherOutput(child);
  await eventually(
    `${only} runs`,
    () => {
      if (child.exitCode !== null) throw new Error(`${only} ended with ${child.exitCode}:\n${output()}`);
      return /(Health|Screens): +\S+\n/.test(output());
    },
    120_000,
  );
  const url = new URL(/(?:Health|Screens): +(\S+)/.exec(output())![1]!).origin;
  return {
    ...{ only, url },
    output,
    async processId() {
      const text = await (await fetch(`${url}/metrics`)).text();
      return /^tilth_process_info\{id="([^"]+)"\} 1$/m.exec(text)![1]!;
    },
    metrics: async () => readOpenMetrics(await (await fetch(`${url}/metrics`)).text()),
    readiness: async () => (await fetch(`${url}/readyz`)).json() as never,
    signal: (signal) => void child.kill(signal),
    async stop(signal = 'SIGTERM') {
      if (child.exitCode === null && child.signalCode === null) {
        const gone = once(child, 'exit');
        child.kill(signal);
        // One that was paused ends only when it goes on.
        child.kill('SIGCONT');
        await gone;
      }
      await rm(folder, { recursive: true, force: true });
      return child.exitCode;
    },
  };
}
