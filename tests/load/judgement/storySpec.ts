import type { Intervention } from '../../../shared/compost/pileModel/interventions.ts';
import type { PileParameters } from '../../../shared/compost/pileModel/parameters.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import type { StoryWeather } from './storyWeather.ts';

/**
 * What was done to the pile to make its trouble: the truth a diagnosis is held against. Only what the story itself puts
 * in counts; what happens by chance has no cause here.
 */
export type InjectedCause =
  | 'too-dry'
  | 'airless-wet'
  | 'cold-loss'
  | 'little-food'
  | 'finished'
  | 'too-rich'
  | 'dry-and-hot';

/** How a person looks after the pile: what a tended one gets that a neglected one does not. */
export interface Tending {
  /** Looks every so many days and waters when the pile's inside is drier than this; null: nobody waters. */
  readonly waterBelowFraction: number | null;
  readonly lookEveryDays: number;
  /** Moisture watering brings it back to. */
  readonly waterToFraction: number;
}

/** What goes wrong with a probe, in days after building. */
export type StoryFault =
  /** The sensor no longer answers: -127 until the end. */
  | { readonly kind: 'dies'; readonly channel: string; readonly fromDay: number }
  /** The probe restarts after an outage: its first value is the power-on 85. */
  | { readonly kind: 'power-on'; readonly atDay: number; readonly silentHours: number }
  | { readonly kind: 'silent'; readonly fromDay: number; readonly toDay: number }
  /** Goes on saying the same. */
  | { readonly kind: 'stuck'; readonly channel: string; readonly fromDay: number }
  /** Reads further and further off. */
  | { readonly kind: 'drifts'; readonly channel: string; readonly fromDay: number; readonly perDay: number }
  /** The battery runs down. */
  | { readonly kind: 'battery'; readonly fromDay: number; readonly perDay: number }
  /** Single readings that are nonsense: nobody should hear of them. */
  | { readonly kind: 'flickers'; readonly channel: string; readonly share: number };

/** All that is decided before a story is played. */
export interface StorySpec {
  readonly id: string;
  readonly seed: number;
  readonly kind: string;
  readonly method: PileMethod;
  readonly cause: InjectedCause | null;
  readonly parameters: PileParameters;
  /** Done by the clock: turns, pulled channels, a flooding. */
  readonly interventions: readonly Intervention[];
  readonly tending: Tending;
  readonly weather: StoryWeather;
  readonly days: number;
  readonly sensors: {
    readonly secondCore: boolean;
    /** The second core stands at the very spot of the first, to be compared with it. */
    readonly paired: boolean;
    readonly moisture: boolean;
    readonly air: boolean;
    readonly intervalMinutes: number;
  };
  readonly faults: readonly StoryFault[];
}
