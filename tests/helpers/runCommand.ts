import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const services = fileURLToPath(new URL('../../services/', import.meta.url));

/** How a command of the machine room ended, and all it said. */
export interface CommandEnded {
  readonly code: number;
  readonly text: string;
}

/** Runs a program beside main.ts, e.g. `doctor`, to its end, as its npm script would. */
export function runCommand(name: string, words: readonly string[]): Promise<CommandEnded> {
  return new Promise((resolve) => {
    execFile(process.execPath, [`${services}${name}.ts`, ...words], (error, out, err) =>
      resolve({ code: error === null ? 0 : Number(error.code), text: out + err }),
    );
  });
}
