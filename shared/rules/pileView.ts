import type { ConditionId } from '../alarms/alarm.ts';
import type { Banded } from '../compost/forecast/banded.ts';
import type { JournalEntry, JournalKind } from '../yard/journal.ts';
import type { Pile, Stage } from '../yard/yard.ts';
import type { Certainty } from './extreme.ts';
import type { Outlook } from './outlook.ts';
import type { SanitisationStanding } from './sanitisationRecord.ts';

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
  /** A person measured it with a dial thermometer. */
  readonly coreByHand: boolean;
  /**
   * The hottest it may be anywhere, for heat and fire alarms: doubtful readings count where they can only make it safer.
   * With `bound` it raises and clears nothing.
   */
  readonly hotCelsius: number | null;
  readonly hotTimeMs: number | null;
  readonly hotCertainty: Certainty;
  /** Highest value of the last 24 h: what advice must reckon with, because a lost or burnt-out probe reads cool. */
  readonly hottestOfDayCelsius: number | null;
  readonly airCelsius: number | null;
  /** Driest fresh good moisture value, wet basis 0..1. With `bound` the pile is at least this dry. */
  readonly moistureFraction: number | null;
  readonly moistureTimeMs: number | null;
  readonly moistureCertainty: Certainty;
  /** It is the middle of a squeeze test's band. */
  readonly moistureByHand: boolean;
  readonly peakCelsius: number | null;
  readonly hoursAbove55: number;
  readonly degreeHoursAbove40: number;
  readonly firstAt40Ms: number | null;
  readonly firstAt55Ms: number | null;
  readonly lastAt45Ms: number | null;
  readonly lastAt55Ms: number | null;
  readonly stage: Stage | null;
  /** The time-temperature record; null for a method no rule is shown for. */
  readonly sanitisation: SanitisationStanding | null;
  /** Moisture by the water balance, with its 80 % band; rain is not in it. */
  readonly estimatedMoisture: Banded;
  /** Share of the readily degradable material that is left, reckoned from warmth and moisture so far, with its 80 % band. */
  readonly materialLeft: Banded;
  /** Worms live in it: a worm bed, or any pile once the journal says they were added. */
  readonly hasWorms: boolean;
  /** Robust slope of the core over the last hours, Celsius per hour. */
  readonly trendCelsiusPerHour: (hours: number) => number | null;
  /** The same of the hottest place, wherever in the pile it is; at most 6 hours back. */
  readonly hotTrendCelsiusPerHour: (hours: number) => number | null;
  /** Where the core is going, by its last 8 h. */
  readonly heatOutlook: () => Outlook | null;
  /** Where the moisture is going, by its last 3 days since it was last watered. */
  readonly moistureOutlook: () => Outlook | null;
  /** Mean air over the last days, Celsius. */
  readonly meanAirCelsius: (days: number) => number | null;
  /** Mean of the core's hourly highs over the last days; null when less than half of the hours are known. */
  readonly meanCoreCelsius: (days: number) => number | null;
  /** Highest hourly core since a time, at most 30 days back. */
  readonly highestCoreSince: (fromMs: number) => number | null;
  /** Latest journal entry of one of these kinds that is not in the future. */
  readonly lastEntry: (kinds: readonly JournalKind[]) => JournalEntry | null;
  /** Whether another condition of this pile is active now, so that one event makes one alarm. */
  readonly isActive: (condition: ConditionId) => boolean;
}
