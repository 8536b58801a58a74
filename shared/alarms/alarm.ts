import type { PileId, ProbeId, YardId } from '../yard/yard.ts';

/**
 * Alarm states of ISA-18.2 / IEC 62682 (letters of the usual state list in brackets; figures restated from public
 * summaries, the standards themselves are paywalled).
 */
export const alarmStates = [
  'normal', // A
  'unacknowledged', // B
  'acknowledged', // C
  'returned-unacknowledged', // D
  'latched-unacknowledged', // E
  'latched-acknowledged', // F
  'shelved', // G
  'suppressed', // H
  'out-of-service', // I
] as const;
export type AlarmState = (typeof alarmStates)[number];

/** Most pressing first. */
export const priorities = ['highest', 'high', 'medium', 'low'] as const;
export type Priority = (typeof priorities)[number];

/** Conditions of the house plan, section 6. Milestones are not alarms and live elsewhere. */
export const conditionIds = [
  'too-hot-ceiling',
  'too-hot-early-notice',
  'too-hot-heading-there',
  'too-hot-fire-danger',
  'too-hot-too-long',
  'too-cold-never-heated',
  'too-cold-fell-short',
  'too-cold-range',
  'drying-out-measured',
  'drying-out-estimated',
  'too-wet',
  'stalled',
  'probe-silent',
  'probe-bad-values',
  'probe-stuck',
  'probe-disagreeing',
  'probe-battery-low',
  'probe-clock-wrong',
  'probe-calibration-due',
  'service-broker-away',
  'service-database-away',
  'service-disk-low',
  'service-messages-not-leaving',
  'service-clock-step',
] as const;
export type ConditionId = (typeof conditionIds)[number];

/** What an alarm is about. A yard-wide loss of probes is one alarm on the yard, not thirty on its piles. */
export type AlarmSubject =
  | { readonly kind: 'pile'; readonly id: PileId }
  | { readonly kind: 'probe'; readonly id: ProbeId }
  | { readonly kind: 'yard'; readonly id: YardId };

/** One number or fact a verdict rests on, ready to be shown: "core 72.4 C, limit 71.0 C". */
export interface Evidence {
  readonly label: string;
  readonly value: number | string;
  /** `C`, `C/h`, `%`, `h`, `d`... or empty for text. Temperatures are always Celsius here; screens convert. */
  readonly unit: string;
}

/** Timer state behind on-delay, off-delay and deadband; all times are event times. */
export interface AlarmTiming {
  readonly active: boolean;
  /** Since when the condition has been true without a break; null when it is not. */
  readonly beyondSinceMs: number | null;
  /** Since when it has been back inside limit and deadband without a break; null when it is not. */
  readonly backSinceMs: number | null;
}

/** Current standing of one condition on one subject. One row per (subject, condition), kept for ever. */
export interface Alarm {
  readonly id: string;
  readonly yardId: YardId;
  readonly subject: AlarmSubject;
  readonly condition: ConditionId;
  readonly state: AlarmState;
  readonly priority: Priority;
  readonly timing: AlarmTiming;
  /** Counts activations: 1 for the first. Texts, links and history name (alarm, occurrence). */
  readonly occurrence: number;
  /** Short code people answer with, e.g. `K7`; unique among alarms that are not normal. */
  readonly code: string;
  readonly activeSinceMs: number | null;
  readonly returnedMs: number | null;
  readonly acknowledgedMs: number | null;
  readonly acknowledgedBy: string | null;
  readonly shelvedUntilMs: number | null;
  /** Why it is shelved, suppressed or out of service, in words for people. */
  readonly hiddenReason: string | null;
  /** Version of the pile's limits that judged it. */
  readonly limitsVersion: number;
  readonly evidence: readonly Evidence[];
  /** Optimistic lock: +1 at every stored change. */
  readonly version: number;
}

/** What can happen to an alarm. `at` is event time for process events, wall time for people's actions. */
export type AlarmEvent =
  | { readonly kind: 'became-active'; readonly atMs: number }
  | { readonly kind: 'returned-to-normal'; readonly atMs: number }
  | { readonly kind: 'acknowledge'; readonly atMs: number; readonly by: string }
  | {
      readonly kind: 'shelve';
      readonly atMs: number;
      readonly by: string;
      readonly untilMs: number;
      readonly reason: string;
    }
  | { readonly kind: 'unshelve'; readonly atMs: number; readonly by: string | null }
  | { readonly kind: 'suppress'; readonly atMs: number; readonly reason: string }
  | { readonly kind: 'unsuppress'; readonly atMs: number }
  | {
      readonly kind: 'take-out-of-service';
      readonly atMs: number;
      readonly by: string;
      readonly reason: string;
    }
  | { readonly kind: 'return-to-service'; readonly atMs: number; readonly by: string }
  | { readonly kind: 're-alarm'; readonly atMs: number }
  | { readonly kind: 'reset'; readonly atMs: number; readonly by: string };

/** A stored step of an alarm's life: who, when, from what to what, on which evidence. */
export interface AlarmTransition {
  readonly alarmId: string;
  readonly occurrence: number;
  readonly atMs: number;
  readonly event: AlarmEvent['kind'];
  readonly from: AlarmState;
  readonly to: AlarmState;
  readonly by: string | null;
  readonly note: string | null;
  readonly limitsVersion: number;
  readonly evidence: readonly Evidence[];
}
