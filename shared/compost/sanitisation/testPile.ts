import type { Sample } from '../../readings/reading.ts';
import type { Position } from '../../yard/yard.ts';
import type { SanitisationInput } from './input.ts';
import type { ZoneSeries } from './series.ts';

/** Small piles for tests and check rows: hourly means unless said, beginning at time zero. */

const msPerHour = 3_600_000;
const msPerDay = 24 * msPerHour;

/** Some hours at one temperature. */
export interface Spell {
  readonly hours: number;
  readonly celsius: number;
}

/** Hourly means that follow the spells in turn; a spell of a fraction of an hour ends on a shorter step. */
export function meansOf(spells: readonly Spell[], position: Position = 'core', stepHours = 1): ZoneSeries {
  const samples: Sample[] = [];
  let beginsHour = 0;
  for (const spell of spells) {
    const steps = Math.round(spell.hours / stepHours);
    for (let step = 0; step < steps; step++) {
      samples.push({ timeMs: (beginsHour + step * stepHours) * msPerHour, value: spell.celsius });
    }
    beginsHour += steps * stepHours;
  }
  const channel = `urn:dev:ow:0000000000000001_${position}`;
  const rhythm = { represents: 'means', intervalMs: stepHours * msPerHour } as const;
  return { position, channel, samples, ...rhythm, fromMs: null, toMs: null };
}

/** A pile with these series, built at time zero and read a year later; turned on the given days. */
export function pileOf(
  series: readonly ZoneSeries[],
  details: Partial<SanitisationInput> & { readonly turnedOnDays?: readonly number[] } = {},
): SanitisationInput {
  const { turnedOnDays = [], ...rest } = details;
  const journal = turnedOnDays.map((day) => ({ kind: 'turned' as const, timeMs: day * msPerDay }));
  const facts = { method: 'hot-bin', startedMs: 0, nowMs: 365 * msPerDay } as const;
  return { ...facts, series, journal, moisture: [], largestPieceMetres: null, ...rest };
}
