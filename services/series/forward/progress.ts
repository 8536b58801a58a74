import type { BaseLogger } from 'pino';
import type { ForwardPace } from './status.ts';

/** Readings behind from which on catching up is worth telling about. */
const worthTelling = 5_000;
const everyMs = 10_000;

/** Tells the log how catching up goes: when it starts, about every ten seconds, and when it is done. */
export interface Progress {
  wrote(count: number, waiting: number): void;
  caughtUp(): void;
  /** How fast what waits is being given away, and for how much longer; null while it is not catching up. */
  pace(waiting: number): ForwardPace | null;
}

export function createProgress(logger: Pick<BaseLogger, 'info'>, place: string): Progress {
  let started: { atMs: number; toldMs: number; written: number } | null = null;
  return {
    wrote(count, waiting) {
      const nowMs = performance.now();
      if (started === null && count + waiting >= worthTelling) {
        started = { atMs: nowMs, toldMs: nowMs, written: 0 };
        logger.info({ place, waiting: count + waiting }, 'InfluxDB is being given the readings that wait');
      }
      if (started === null) return;
      started.written += count;
      if (nowMs - started.toldMs < everyMs) return;
      started.toldMs = nowMs;
      logger.info(
        { place, written: started.written, waiting, ...pace(started, nowMs) },
        'InfluxDB is catching up',
      );
    },
    caughtUp() {
      if (started === null) return;
      const { written } = started;
      logger.info(
        { place, written, ...pace(started, performance.now()) },
        'InfluxDB has every reading again',
      );
      started = null;
    },
    pace(waiting) {
      if (started === null || started.written === 0) return null;
      const { readingsPerSecond } = pace(started, performance.now());
      return { readingsPerSecond, secondsLeft: Math.ceil(waiting / Math.max(1, readingsPerSecond)) };
    },
  };
}

function pace({ atMs, written }: { atMs: number; written: number }, nowMs: number) {
  const seconds = Math.max(0.001, (nowMs - atMs) / 1000);
  return { seconds: Math.round(seconds), readingsPerSecond: Math.round(written / seconds) };
}
