import type { Banded } from '../compost/forecast/banded.ts';
import type { PileMethod } from '../yard/method.ts';
import type { TemperatureUnit } from '../yard/yard.ts';
import type { CauseId } from './causes.ts';
import type { Trouble } from './trouble.ts';

/** Everything that can be observed of a troubled pile. */
export const kindIds = [
  'moistureFraction',
  'squeezeScore',
  'squeezeAgainstProbe',
  'estimatedMoistureFraction',
  'builtMoistureFraction',
  'smell',
  'look',
  'degradableLeft',
  'heatShare',
  'ageDays',
  'afterTurn',
  'afterWater',
  'afterBoth',
  'airCelsius',
  'volumeM3',
  'leastSideMetres',
  'riseOverAirCelsius',
  'trendCelsiusPerHour',
  'steepestFallCelsiusPerHour',
  'coreMinusEdgeCelsius',
  'coresApartCelsius',
  'followsAir',
  'handMinusProbeCelsius',
  'probeHistory',
  'carbonToNitrogen',
  'freeAirSpaceFraction',
  'peakCelsius',
  'hottestCelsius',
  'meanCoreCelsius',
  'hoursSinceWork',
  'daysSinceTurned',
  'litresPerM3Week',
  'rainMillimetresWeek',
  'cover',
  'airPath',
  'baseWater',
] as const;

export type KindId = (typeof kindIds)[number];

/** What was seen: a number, a number with its 80 % band, or one of the kind's outcomes. */
export type Seen = number | Banded | string;

/** How likely each outcome is if a cause is at work. */
export interface Row {
  /** Per cent for each outcome, summing to 100. Always judgement: no study gives these numbers. */
  readonly chances: readonly number[];
  /** What one expects if so, as a clause for people: "a dry pile shows under 40 %". */
  readonly expect: string;
  /** Where direction and limits come from. */
  readonly source: string;
}

/** One kind of observation: its outcomes, and a row of chances for each cause it speaks about. */
export interface ObservationKind {
  readonly id: KindId;
  /**
   * Kinds that witness the same matter share its name: two moisture measurements are not two independent facts, so
   * together they count less than their sum.
   */
  readonly matter: string;
  /** In which troubles it tells anything; elsewhere it is not counted. */
  readonly troubles: readonly Trouble[];
  /** From dry to wet, from low to high, where there is an order. */
  readonly outcomes: readonly string[];
  /** For numbers: the value each outcome stands for, rising; between two of them the chances blend. */
  readonly anchors: ((method: PileMethod) => readonly number[]) | null;
  readonly rows: Readonly<Partial<Record<CauseId, Row>>>;
  /** For all causes without a row of their own. */
  readonly otherwise: Row;
  /** The observation in plain words with its number and unit, e.g. "moisture is 28 %". */
  readonly say: (seen: Seen, unit: TemperatureUnit) => string;
}

/** The row by which a cause is judged. */
export function rowOf(kind: ObservationKind, cause: CauseId): Row {
  return kind.rows[cause] ?? kind.otherwise;
}

/** Thrown when an observation is not one its kind allows; names the field, the value and what is allowed. */
export class ObservationError extends Error {
  override readonly name = 'ObservationError';
  readonly field: KindId;
  constructor(field: KindId, message: string) {
    super(message);
    this.field = field;
  }
}
