import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { eventually } from './eventually.ts';
import { gatherOutput } from './gatherOutput.ts';

const program = fileURLToPath(new URL('../../services/demo.ts', import.meta.url));

/** Whether the screens were built; `npm test` builds them first. */
export const screensBuilt = existsSync(
  fileURLToPath(new URL('../../dashboards/dist/index.html', import.meta.url)),
);

/** The demo yard as `npm run demo` starts it: the real service with the simulator, on free ports. */
export interface DemoProcess {
  readonly url: string;
  /** Signs the owner in, once. */
  readonly signInLink: string;
  output(): string;
  stop(): Promise<void>;
}

/** Starts the demo and waits until its probes have sent their past. */
export async function startDemoProcess(): Promise<DemoProcess> {
  const child: ChildProcess = spawn(process.execPath, [program, '--http.port', '0'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const output = gatherOutput(child);
  await eventually(
    'the demo has sent its past readings',
    () => {
      if (child.exitCode !== null) throw new Error(`the demo ended with ${child.exitCode}:\n${output()}`);
      return output().includes('past readings sent');
    },
    120_000,
  );
  const signInLink = /(http:\S+\/#\/sign-in\/\S+)/.exec(output())![1]!;
  return {
    url: new URL(signInLink).origin,
    signInLink,
    output,
    async stop() {
      if (child.exitCode !== null || child.signalCode !== null) return;
      const gone = once(child, 'exit');
      child.kill('SIGTERM');
      await gone;
    },
  };
}
