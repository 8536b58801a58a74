import { writeSync } from 'node:fs';

/** Tells whoever waits how far the making of engine and images is, at once: a test runner holds back what suites print. */
export function say(text: string): void {
  writeSync(process.stderr.fd, `  containers: ${text}\n`);
}

/** Says the newest line of something long every ten seconds. */
export function sayNowAndThen(what: string): (line: string) => void {
  let nextAt = performance.now() + 10_000;
  return (line) => {
    if (performance.now() < nextAt) return;
    nextAt = performance.now() + 10_000;
    say(`${what}: ${line.slice(0, 120)}`);
  };
}
