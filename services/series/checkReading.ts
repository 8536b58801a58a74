import type { Reading } from '../../shared/readings/reading.ts';

/**
 * A reading that could not be stored is the caller's mistake, found before the group is made: otherwise it would take the
 * readings of others, committed together with it, down with it.
 */
export function checkReading(reading: Reading): void {
  const refuse = (field: string, allowed: string): never => {
    throw new TypeError(`reading of ${JSON.stringify(reading.channel)}: ${field}; allowed: ${allowed}`);
  };
  if (typeof reading.channel !== 'string' || reading.channel === '')
    refuse('channel is empty', 'a SenML name');
  if (!Number.isSafeInteger(reading.timeMs)) refuse(`timeMs is ${reading.timeMs}`, 'whole milliseconds');
  if (!Number.isFinite(reading.value)) refuse(`value is ${reading.value}`, 'a finite number');
  if (!Number.isFinite(reading.rawValue)) refuse(`rawValue is ${reading.rawValue}`, 'a finite number');
}

export function checkMaxPoints(maxPoints: number | undefined): void {
  if (maxPoints === undefined || (Number.isSafeInteger(maxPoints) && maxPoints >= 1)) return;
  throw new TypeError(`maxPoints is ${maxPoints}; allowed: a whole number of 1 or more`);
}
