import type { ConditionId } from '../alarms/alarm.ts';
import type { JournalEntry, JournalKind } from '../yard/journal.ts';
import type { Pile, Stage } from '../yard/yard.ts';
import type { Certainty } from './extreme.ts';

/**
 * A pile as it is known at one instant; what pile conditions judge. Null means "not known", never zero. The object is
 * reused from instant to instant: read it at once, never keep it.
 */
export interface PileView {
  readonly kind: 'pile';
  readonly nowMs: number;
  readonly pile: Pile;
  /** Hours since it was built. */
  readonly ageHours: number;
  /** Highest fresh good core value; null when no core channel is fresh. With `bound` the pile is at least this hot. */
  readonly coreCelsius: number | null;
  readonly coreTimeMs: number | null;
  readonly coreCertainty: Certainty;
  /** Highest core value of the last 24 h: what advice must reckon with, because a lost or burnt-out probe reads cool. */
  readonly hottestOfDayCelsius: number | null;
  readonly airCelsius: number | null;
  /** Driest fresh good moisture value, wet basis 0..1. With `bound` the pile is at least this dry. */
  readonly moistureFraction: number | null;
  readonly moistureTimeMs: number | null;
  readonly moistureCertainty: Certainty;
  readonly peakCelsius: number | null;
  readonly hoursAbove55: number;
  readonly degreeHoursAbove40: number;
  readonly firstAt40Ms: number | null;
  readonly firstAt55Ms: number | null;
  readonly lastAt45Ms: number | null;
  readonly stage: Stage | null;
  /** Robust slope of the core over the last hours, Celsius per hour. */
  readonly trendCelsiusPerHour: (hours: number) => number | null;
  /** Mean air over the last days, Celsius. */
  readonly meanAirCelsius: (days: number) => number | null;
  /** Latest journal entry of one of these kinds that is not in the future. */
  readonly lastEntry: (kinds: readonly JournalKind[]) => JournalEntry | null;
  /** Whether another condition of this pile is active now, so that one event makes one alarm. */
  readonly isActive: (condition: ConditionId) => boolean;
}
