import type { Logger } from 'pino';

/** A stop that hangs must not hold the machine's shutdown up for ever. */
const patienceMs = 20_000;

/** Stops once in good order at the first interrupt or terminate signal, and at once at a second one. */
export function onStopSignal(stop: () => Promise<void>, logger: Logger): void {
  let stopping = false;
  const handle = () => {
    if (stopping) process.exit(1);
    stopping = true;
    const timer = setTimeout(() => {
      logger.error('stopping took too long; readings not acknowledged stay with their senders');
      process.exit(1);
    }, patienceMs);
    stop().then(
      () => {
        clearTimeout(timer);
        process.exit(0);
      },
      (error: unknown) => {
        logger.error({ error }, 'stopping failed');
        process.exit(1);
      },
    );
  };
  // Terminals and npm both pass an interrupt on; the second one within a moment is the same key press.
  let lastAt = 0;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      const at = performance.now();
      if (lastAt === 0 || at - lastAt > 1000) handle();
      lastAt = at;
    });
  }
}
