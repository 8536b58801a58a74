import type { Position, TemperatureUnit } from '../../yard/yard.ts';
import type { GapPolicy } from './periods.ts';
import type { Continuity } from './ruleSet.ts';

/** What a yard may choose where a rule's text leaves it open. */
export interface SanitisationPolicy {
  /** Consecutive or cumulative, for paths that allow the choice; null keeps each path's own. */
  readonly continuity: Continuity | null;
  readonly gapPolicy: GapPolicy;
  /** With gap policy `pause`: a longer hole ends the run. */
  readonly longestPauseMs: number;
  /**
   * Two instants up to this far apart vouch for the time between (never less than the probe's own rhythm). A hole no
   * longer than this earns nothing but ends no run.
   */
  readonly maximumGapMs: number;
  /** Kept back from the band for the guarded total. */
  readonly probeToleranceCelsius: number;
  /** Zones that must qualify; null means every monitored zone, or the core where the rule's text says core. */
  readonly zones: readonly Position[] | null;
  /** Unit for the words people read. */
  readonly temperatureUnit: TemperatureUnit;
}

/** Careful defaults (ours): a break in the data breaks a run, and a probe good to 0.5 C. */
export const defaultSanitisationPolicy: SanitisationPolicy = {
  continuity: null,
  gapPolicy: 'break',
  longestPauseMs: 12 * 3_600_000,
  maximumGapMs: 3_600_000,
  probeToleranceCelsius: 0.5,
  zones: null,
  temperatureUnit: 'C',
};

/** What the evaluators of single paths need of the policy, with the guard of this pass (zero for the plain one). */
export interface EvaluationPolicy
  extends Pick<SanitisationPolicy, 'continuity' | 'gapPolicy' | 'longestPauseMs' | 'maximumGapMs'> {
  readonly guardCelsius: number;
}
