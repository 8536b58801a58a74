import type { SanitisationOutcome } from '../compost/sanitisation/result.ts';
import type { PileId, Stage } from '../yard/yard.ts';

/** What the last assessment of a pile found; stored by rules, shown by web. Null means "not known", never zero. */
export interface PileStatus {
  readonly pileId: PileId;
  readonly assessedMs: number;
  readonly stage: Stage | null;
  /** Highest good core value and when it was measured. */
  readonly coreCelsius: number | null;
  readonly coreTimeMs: number | null;
  /** Robust slope of the core over the last hours. */
  readonly trendCelsiusPerHour: number | null;
  readonly airCelsius: number | null;
  readonly moistureFraction: number | null;
  readonly moistureTimeMs: number | null;
  /** Hours at or above 55 C since the pile was built, from good readings only. */
  readonly hoursAbove55: number;
  /** Progress 0..1 of the sanitisation record for this pile's method; null where none applies. */
  readonly sanitisationProgress: number | null;
  /** What may be said of that record; `core-record-only` must be shown as "core record only". */
  readonly sanitisationOutcome: SanitisationOutcome | null;
  /** Highest core value so far. */
  readonly peakCelsius: number | null;
}
