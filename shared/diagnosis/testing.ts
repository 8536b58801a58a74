import type { Sample } from '../readings/reading.ts';
import type { JournalEntry, JournalKind } from '../yard/journal.ts';
import type { Situation } from './advice/safety.ts';
import { type DiagnosisFacts, noFacts } from './facts/facts.ts';

/** A warm hot bin about whose moisture nothing is known; tests change what they are about. */
export function situationOf(change: Partial<Situation> = {}): Situation {
  return {
    method: 'hot-bin',
    stage: 'cooling',
    hottestCelsius: 35,
    isRising: false,
    hasSignsOfFire: false,
    moisture: 'unknown',
    ...change,
  };
}

const hourMs = 3_600_000;
/** Start of every test pile: a whole hour, UTC. */
export const startMs = 1_700_006_400_000;

/** Hourly samples on straight lines between (hour, Celsius) points. */
export function courseThrough(points: readonly (readonly [number, number])[]): Sample[] {
  return points.slice(1).flatMap(([endHour, end], index) => {
    const [startHour, start] = points[index]!;
    const hours = endHour - startHour;
    return Array.from({ length: hours }, (_, hour) => ({
      timeMs: startMs + (startHour + hour) * hourMs,
      value: start + ((end - start) * hour) / hours,
    }));
  });
}

/** Air with a daily wave about a mean. */
export function airAround(mean: number, days: number, swing = 8): Sample[] {
  return Array.from({ length: days * 24 }, (_, hour) => ({
    timeMs: startMs + hour * hourMs,
    value: mean + (swing / 2) * Math.sin((2 * Math.PI * (hour - 9)) / 24),
  }));
}

/** A journal entry some hours after the start. */
export function wrote(
  kind: JournalKind,
  hours: number,
  value: number | null = null,
  note = '',
): JournalEntry {
  const timeMs = startMs + hours * hourMs;
  return {
    id: `${kind}-${hours}`,
    pileId: 'bin-1',
    timeMs,
    kind,
    value,
    note,
    by: 'ann',
    recordedAtMs: timeMs,
  };
}

/** A pile so many days old that heated to a peak and cooled again, with sums that fit its course. */
export function troubledPile(
  days: number,
  change: Partial<DiagnosisFacts> & Pick<DiagnosisFacts, 'core'>,
): DiagnosisFacts {
  const values = change.core.map(({ value }) => value);
  return {
    ...noFacts({ nowMs: startMs + days * 24 * hourMs, method: 'hot-bin', startedMs: startMs }),
    air: airAround(12, days),
    volumeM3: 1,
    hasDoubtfulProbe: false,
    hottestOfDayCelsius: Math.max(...values.slice(-24)),
    peakCelsius: Math.max(...values),
    degreeHoursAbove40: values.reduce((sum, value) => sum + Math.max(0, value - 40), 0),
    ...change,
  };
}
