import type { Banded } from '../../compost/forecast/banded.ts';
import type { Sample } from '../../readings/reading.ts';
import type { JournalEntry } from '../../yard/journal.ts';
import type { PileMethod } from '../../yard/method.ts';
import type { Stage } from '../../yard/yard.ts';

/** The mix a pile was built of, as far as it is known. */
export interface MixFacts {
  readonly carbonToNitrogen: number | null;
  readonly moistureFraction: number | null;
  readonly freeAirSpaceFraction: number | null;
}

/**
 * What is known of a pile when somebody asks for a cause: plain facts that live rules, replay and tests can all fill.
 * Null or empty where it is not known; nothing here is ever guessed.
 */
export interface DiagnosisFacts {
  readonly nowMs: number;
  readonly method: PileMethod;
  readonly stage: Stage | null;
  readonly startedMs: number;
  readonly volumeM3: number | null;
  readonly leastSideMetres: number | null;
  /** The judged line of the core and the air, about hourly, good values only, in time order, 5 to 30 days back. */
  readonly core: readonly Sample[];
  readonly air: readonly Sample[];
  /** Fresh good values at this instant. */
  readonly edgeCelsius: number | null;
  readonly otherCoresCelsius: readonly number[];
  readonly moistureFraction: number | null;
  /** Highest of the last 24 h, doubtful values included where they make it safer. */
  readonly hottestOfDayCelsius: number | null;
  /** Over its whole life. */
  readonly peakCelsius: number | null;
  readonly degreeHoursAbove40: number | null;
  /** Model estimates with their 80 % band. */
  readonly estimatedMoisture: Banded | null;
  readonly materialLeft: Banded | null;
  readonly mix: MixFacts | null;
  readonly rainMillimetresWeek: number | null;
  /** Whether its probes gave bad or suspect values in the last two days. */
  readonly hasDoubtfulProbe: boolean | null;
  /** The pile's whole journal, in time order; entries after `nowMs` are not looked at. */
  readonly journal: readonly JournalEntry[];
}

/** A pile about which nothing is known but what it is; callers add what they know. */
export function noFacts(pile: Pick<DiagnosisFacts, 'nowMs' | 'method' | 'startedMs'>): DiagnosisFacts {
  return {
    ...pile,
    stage: null,
    volumeM3: null,
    leastSideMetres: null,
    core: [],
    air: [],
    edgeCelsius: null,
    otherCoresCelsius: [],
    moistureFraction: null,
    hottestOfDayCelsius: null,
    peakCelsius: null,
    degreeHoursAbove40: null,
    estimatedMoisture: null,
    materialLeft: null,
    mix: null,
    rainMillimetresWeek: null,
    hasDoubtfulProbe: null,
    journal: [],
  };
}
