import type { Reading } from '../../shared/readings/reading.ts';
import type { AcceptOutcome, IngestStatistics } from './port.ts';

type Counts = { -readonly [Name in keyof IngestStatistics]: IngestStatistics[Name] };

/** Counts what ingest does. */
export interface Counting {
  readonly counts: Counts;
  outcome(outcome: AcceptOutcome, readings: readonly Reading[]): void;
}

export function startCounting(): Counting {
  const counts: Counts = {
    messages: 0,
    readingsStored: 0,
    duplicates: 0,
    readingsBad: 0,
    readingsSuspect: 0,
    quarantined: 0,
    recordsIgnored: 0,
    storageFaults: 0,
    failedCommitsInRow: 0,
    commits: 0,
    lastCommitMilliseconds: null,
    lastStoredMs: null,
    waiting: 0,
  };
  return {
    counts,
    outcome(outcome, readings) {
      if (outcome.kind === 'quarantined' || outcome.quarantined > 0) counts.quarantined++;
      if (outcome.kind === 'quarantined') return;
      counts.readingsStored += outcome.stored;
      counts.duplicates += outcome.duplicates;
      // A pack that repeats others is not judged again, and not counted again.
      if (outcome.stored === 0) return;
      for (const { quality } of readings) {
        if (quality === 'bad') counts.readingsBad++;
        else if (quality === 'suspect') counts.readingsSuspect++;
      }
    },
  };
}
