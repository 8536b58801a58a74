import { startFailureText } from './startFailure.ts';

/** Runs a command to its end; what stops it is told in one sentence, with exit code 1. */
export function runCommand(command: () => Promise<void>): void {
  command().catch((error: unknown) => {
    console.error(startFailureText(error));
    process.exitCode = 1;
  });
}
