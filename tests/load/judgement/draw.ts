import { seeded } from '../../../shared/statistics/seeded.ts';

/** A repeatable source of chances for one story. */
export interface Draw {
  /** 0..1 */
  readonly chance: () => number;
  readonly between: (low: number, high: number) => number;
  readonly whole: (low: number, high: number) => number;
  readonly happens: (probability: number) => boolean;
  readonly oneOf: <T>(list: readonly T[]) => T;
  /** Standard normal. */
  readonly normal: () => number;
}

/** The same seed gives the same story on every machine. */
export function drawFrom(seed: number): Draw {
  const chance = seeded(Math.imul(seed, 2_654_435_761) ^ 0x5bd1e995);
  const between = (low: number, high: number) => low + (high - low) * chance();
  return {
    chance,
    between,
    whole: (low, high) => Math.floor(between(low, high + 1)),
    happens: (probability) => chance() < probability,
    oneOf: (list) => list[Math.floor(chance() * list.length)]!,
    normal: () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance()),
  };
}
