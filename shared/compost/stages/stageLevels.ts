import type { PileMethod } from '../../yard/method.ts';
import type { Stage } from '../../yard/yard.ts';

/** Where one stage gives way to the next. */
export interface StageLevels {
  /** Stage of a pile just built: a curing heap, worm bed or leaf heap is not expected to heat. */
  readonly firstStage: Stage;
  /** A core this much over its first reading, or at this temperature, is heating (ours). */
  readonly heatingRiseCelsius: number;
  readonly heatingFromCelsius: number;
  /** Hot from here (45 C: AgriFutures), until it falls under the lower level (40 C: Cornell's lower end of the hot stage). */
  readonly hotFromCelsius: number;
  readonly hotUntilCelsius: number;
  /** A pile that never got hot cools once it is this far under its peak (ours). */
  readonly fallFromPeakCelsius: number;
  /** A change upward must last this long, a fall this long (ours). */
  readonly riseHours: number;
  readonly fallHours: number;
  /** After a turn, an opening or a pulled probe a fall is expected for this long (recovery 0.5-2 days, synthesis, unconfirmed). */
  readonly disturbedHours: number;
  /** The same after watering, which some piles get every day (ours). */
  readonly wateredHours: number;
  /** Days under 45 C after which curing has begun, when a turn or watering in that time did not bring it back (ours). */
  readonly curingDays: number;
  /** The same where nobody turned it, so that nothing tested it (ours). */
  readonly curingDaysUntested: number;
}

const heatingPile: StageLevels = {
  firstStage: 'lag',
  heatingRiseCelsius: 5,
  heatingFromCelsius: 30,
  hotFromCelsius: 45,
  hotUntilCelsius: 40,
  fallFromPeakCelsius: 5,
  riseHours: 3,
  fallHours: 24,
  disturbedHours: 48,
  wateredHours: 12,
  curingDays: 7,
  curingDaysUntested: 21,
};

/** Levels for each way of running a pile. A static cage is never turned, so a week under 45 C is enough for it. */
export function stageLevelsFor(method: PileMethod): StageLevels {
  switch (method) {
    case 'curing-heap':
    case 'worm-bed':
    case 'leaf-heap':
      return { ...heatingPile, firstStage: 'curing' };
    case 'static-cage':
      return { ...heatingPile, curingDaysUntested: heatingPile.curingDays };
    default:
      return heatingPile;
  }
}
