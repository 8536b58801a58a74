import type { House } from '../house.ts';

const everyMs = 3_600_000;

/** Removes sessions that are over, now and every hour; they are refused anyway, this keeps the table small. */
export function sweepSessions(house: Pick<House, 'records' | 'realClock' | 'logger'>): () => void {
  const sweep = () =>
    house.records.sessions
      .removeExpired(house.realClock.nowMs())
      .catch((error: unknown) => house.logger.warn({ err: error }, 'old sessions could not be removed'));
  void sweep();
  const timer = setInterval(() => void sweep(), everyMs).unref();
  return () => clearInterval(timer);
}
