import type { SparkHour, WallAlarm, WallPile, WallView } from '../../shared/api/types.ts';
import { pileMethods } from '../../shared/yard/method.ts';
import { stages } from '../../shared/yard/yard.ts';

const hourMs = 3_600_000;

/** A number 0..1 that looks like chance and is the same every time. */
const chance = (seed: number) => (Math.sin(seed * 12.9898) * 43_758.5453) % 1 ** 2;
const share = (seed: number) => Math.abs(chance(seed));

export interface PileOptions {
  readonly nowMs: number;
  readonly celsius?: number;
  readonly alarms?: readonly WallAlarm[];
}

/** A pile as the wall gets it, with two days of course; `number` makes it one of its own. */
export function madeUpPile(number: number, { nowMs, celsius, alarms = [] }: PileOptions): WallPile {
  const core = celsius ?? Math.round((12 + share(number) * 60) * 10) / 10;
  return {
    id: `pile-${number}`,
    name: `Cage ${number}`,
    place: `bay ${Math.ceil(number / 4)}`,
    method: pileMethods[number % pileMethods.length]!,
    startedMs: nowMs - number * hourMs,
    stage: stages[number % stages.length]!,
    core: { celsius: core, timeMs: nowMs - 120_000 },
    trendCelsiusPerHour: Math.round((share(number + 7) - 0.5) * 10) / 10,
    moisture: { fraction: 0.4 + share(number + 3) * 0.3, timeMs: nowMs },
    sanitisationProgress: share(number + 5),
    assessedMs: nowMs,
    points: (['core', 'shoulder', 'edge'] as const).map((position, index) => ({
      position,
      depthMetres: 0.6 - index * 0.2,
      celsius: core - index * 9,
      timeMs: nowMs - 120_000,
    })),
    alarms,
    spark: madeUpSpark(core, nowMs),
  };
}

function madeUpSpark(core: number, nowMs: number): SparkHour[] {
  const firstMs = Math.floor(nowMs / hourMs) * hourMs - 47 * hourMs;
  return Array.from({ length: 48 }, (_, hour) => {
    const mean = core - Math.sin(hour / 9) * 3;
    return { startMs: firstMs + hour * hourMs, min: mean - 0.4, max: mean + 0.4, mean, source: 0 };
  });
}

/** The wall's answer for some piles. */
export function madeUpWall(piles: readonly WallPile[], nowMs: number): WallView {
  return {
    yard: {
      id: 'yard',
      name: 'Gannet Row',
      timeZone: 'Europe/London',
      temperatureUnit: 'C',
      air: { celsius: 11.4, timeMs: nowMs - 60_000 },
      rain: { millimetres: 3.2, timeMs: nowMs - 60_000 },
    },
    nowMs,
    dataMs: nowMs - 60_000,
    unacknowledgedCount: piles.reduce((sum, { alarms }) => sum + alarms.length, 0),
    yardAlarms: [],
    piles,
  };
}
