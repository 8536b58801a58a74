import type { Logger } from 'pino';
import type { Clock } from './clock.ts';
import type { Retention, SeriesStore } from './series/port.ts';

const everyMs = 6 * 3_600_000;

/** Removes raw readings that are past their keeping, now and every six hours. Roll-ups always stay. */
export function startTrimming(
  series: SeriesStore,
  retention: Retention,
  clock: Clock,
  logger: Logger,
): { stop(): void } {
  if (retention.rawDays === null) return { stop: () => {} };
  const trim = () => {
    series.trim(retention, clock.nowMs()).then(
      (removed) => removed > 0 && logger.info({ removed }, 'old raw readings removed'),
      (error: unknown) => logger.error({ error }, 'old raw readings could not be removed'),
    );
  };
  trim();
  const timer = setInterval(trim, everyMs);
  return { stop: () => clearInterval(timer) };
}
