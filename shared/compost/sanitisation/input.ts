import type { Sample } from '../../readings/reading.ts';
import type { JournalEntry } from '../../yard/journal.ts';
import type { PileMethod } from '../../yard/method.ts';
import type { ZoneSeries } from './series.ts';

/** What is known of a pile when its record is judged. */
export interface SanitisationInput {
  readonly method: PileMethod;
  /** When the pile was built, and the moment the record is read. Nothing outside counts. */
  readonly startedMs: number;
  readonly nowMs: number;
  readonly series: readonly ZoneSeries[];
  readonly journal: readonly Pick<JournalEntry, 'timeMs' | 'kind'>[];
  /** Moisture as wet-basis fraction, in time order; empty when nobody measured it. */
  readonly moisture: readonly Sample[];
  /** Largest piece that went in, where it was written down. */
  readonly largestPieceMetres: number | null;
}
