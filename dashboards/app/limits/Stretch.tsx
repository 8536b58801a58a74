import type { LimitCondition } from '../../../shared/api/types.ts';
import { Select } from './Select.tsx';
import { limitWords } from './words.ts';

const dayMs = 86_400_000;

/** How much of the pile's past is replayed. */
export type Stretch = 'weeks' | 'months' | 'life';

/** The service reads so many days at once. */
const longestDays = 395;

/** When the stretch begins; never before the pile does. */
export function stretchStart(stretch: Stretch, startedMs: number, nowMs: number): number {
  const days = { weeks: 28, months: 91, life: longestDays }[stretch];
  return Math.max(startedMs, nowMs - days * dayMs);
}

interface StretchChoiceProps {
  readonly stretch: Stretch;
  readonly lifeMs: number;
  readonly onChange: (stretch: Stretch) => void;
}

/** Only stretches that the pile is old enough for. */
export function StretchChoice({ stretch, lifeMs, onChange }: StretchChoiceProps) {
  const days = lifeMs / dayMs;
  const offered: readonly (readonly [Stretch, string])[] = [
    ...(days > 28 ? [['weeks', limitWords.stretches.weeks] as const] : []),
    ...(days > 91 ? [['months', limitWords.stretches.months] as const] : []),
    ['life', days > longestDays ? limitWords.stretches.year : limitWords.stretches.life],
  ];
  return (
    <Select
      label={limitWords.stretch}
      value={stretch}
      onChange={onChange}
      groups={[{ title: '', choices: offered }]}
    />
  );
}

/** Under which heading a condition stands. */
export function groupOf({ condition }: LimitCondition): keyof typeof limitWords.groups {
  if (condition.startsWith('too-hot')) return 'heat';
  if (condition.startsWith('too-cold')) return 'cold';
  return condition === 'stalled' ? 'work' : 'water';
}
