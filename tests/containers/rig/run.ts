import { spawn } from 'node:child_process';

export interface RunOptions {
  readonly cwd?: string;
  /** Added to this process's own environment. */
  readonly environment?: Readonly<Record<string, string>>;
  readonly onLine?: (line: string) => void;
}

/** Runs a program to its end and gives what it printed; throws with the end of what it said when it fails. */
export async function run(
  program: string,
  words: readonly string[],
  options: RunOptions = {},
): Promise<string> {
  const { code, output, all } = await tryRun(program, words, options);
  if (code === 0) return output;
  throw new Error(`${program} ${words.join(' ')} ended with ${code}:\n${all.slice(-4000)}`);
}

export interface Ended {
  /** Null when a signal ended it or it could not be started. */
  readonly code: number | null;
  /** Standard output. */
  readonly output: string;
  /** Standard output and errors in the order they came. */
  readonly all: string;
}

/** As `run`, but the caller judges how it ended. */
export function tryRun(program: string, words: readonly string[], options: RunOptions = {}): Promise<Ended> {
  const child = spawn(program, words, {
    cwd: options.cwd,
    env: { ...process.env, ...options.environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  let all = '';
  child.stdout.on('data', (piece: Buffer) => {
    output += piece.toString();
  });
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (piece: Buffer) => {
      all += piece.toString();
      const line = piece.toString().trimEnd().split('\n').at(-1);
      if (line) options.onLine?.(line);
    });
  return new Promise((resolve) => {
    child.on('error', (error) => resolve({ code: null, output, all: `${all}${error.message}` }));
    child.on('close', (code) => resolve({ code, output, all }));
  });
}
