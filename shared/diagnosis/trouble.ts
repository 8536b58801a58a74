import type { ConditionId } from '../alarms/alarm.ts';

/** What is wrong, as far as causes are concerned. */
export const troubles = [
  'stalled',
  'never-heated',
  'fell-short',
  'too-hot',
  'too-wet',
  'drying-out',
] as const;

export type Trouble = (typeof troubles)[number];

const ofCondition: Partial<Record<ConditionId, Trouble>> = {
  stalled: 'stalled',
  'too-cold-never-heated': 'never-heated',
  'too-cold-fell-short': 'fell-short',
  'too-hot-early-notice': 'too-hot',
  'too-hot-heading-there': 'too-hot',
  'too-hot-ceiling': 'too-hot',
  'too-hot-fire-danger': 'too-hot',
  'too-hot-too-long': 'too-hot',
  'too-wet': 'too-wet',
  'drying-out-measured': 'drying-out',
  'drying-out-estimated': 'drying-out',
};

/** The trouble a condition is about; null for conditions whose cause is not in question (probes, services, frost). */
export function troubleOf(condition: ConditionId): Trouble | null {
  return ofCondition[condition] ?? null;
}

/** The pile does not make or hold heat. */
export const coldTroubles: readonly Trouble[] = ['stalled', 'never-heated', 'fell-short'];
export const hotTroubles: readonly Trouble[] = ['too-hot'];
export const waterTroubles: readonly Trouble[] = ['too-wet', 'drying-out'];
