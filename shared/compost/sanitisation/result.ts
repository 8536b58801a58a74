import type { Position } from '../../yard/yard.ts';
import type { MoistureFlag } from './cautions.ts';
import type { ChannelCoverage, EvidenceRow } from './coverage.ts';
import type { Part } from './outcome.ts';
import type { PreconditionCheck } from './preconditions.ts';

/** The best path under one reading of the probe: as it says, or with its tolerance kept back. */
export interface Totals {
  readonly pathId: string;
  readonly totalHours: number;
  readonly bestPeriodHours: number;
  readonly satisfiedAtMs: number | null;
}

export const sanitisationOutcomes = ['consistent', 'core-record-only', 'not-yet'] as const;
export type SanitisationOutcome = (typeof sanitisationOutcomes)[number];

export interface SanitisationResult {
  readonly ruleId: string;
  readonly title: string;
  readonly source: string;
  /** "confirmed", "confirmed from a secondary source" or "unconfirmed". */
  readonly statusWords: string;
  /** Never more than "record consistent with". `core-record-only`: the core alone met it in a pile nobody turns. */
  readonly outcome: SanitisationOutcome;
  readonly pathId: string;
  /** 0..1; 1 only when the outcome is `consistent`, so a core record alone never looks complete. */
  readonly progress: number;
  readonly satisfiedAtMs: number | null;
  /** When the core's own record met the rule, in a static cage with no other zone watched. */
  readonly coreRecordAtMs: number | null;
  readonly parts: readonly Part[];
  readonly missing: readonly string[];
  readonly cautions: readonly string[];
  readonly preconditions: readonly PreconditionCheck[];
  readonly moisture: MoistureFlag;
  readonly zonesCounted: readonly Position[];
  readonly plain: Totals;
  readonly guarded: Totals;
  readonly evidence: readonly EvidenceRow[];
  readonly coverage: readonly ChannelCoverage[];
  /** Hours before this were cleared because fresh material was added; null when none was. */
  readonly clearedAtMs: number | null;
}
