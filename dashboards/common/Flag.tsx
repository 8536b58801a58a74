import type { AlarmState, Priority } from '../../shared/alarms/alarm.ts';
import { priorityWords } from './words.ts';

/**
 * The flag stuck into a pile that asks for someone. The more pressing, the bigger its cloth: streamer, pennant, square
 * flag, swallowtail. Filled while nobody has seen it, an outline once somebody has.
 */
const cloths: Readonly<Record<Priority, string>> = {
  low: 'M7 5 L19 7 L7 9 Z',
  medium: 'M7 3 L22 8.5 L7 14 Z',
  high: 'M7 3 H22 V14 H7 Z',
  highest: 'M7 2 H24 L19 9 L24 16 H7 Z',
};

interface FlagProps {
  readonly priority: Priority;
  readonly state: AlarmState;
}

export function Flag({ priority, state }: FlagProps) {
  const unseen = state === 'unacknowledged' || state.endsWith('-unacknowledged');
  const over = state.startsWith('returned');
  return (
    <svg class={`flag flag-${priority}`} viewBox="0 0 26 26" role="img" aria-label={priorityWords[priority]}>
      <path
        d="M6 1.5 V25"
        stroke="currentColor"
        stroke-width="2.4"
        stroke-linecap="round"
        stroke-dasharray={over ? '3 3' : undefined}
      />
      <path
        d={cloths[priority]}
        fill={unseen ? 'currentColor' : 'none'}
        stroke="currentColor"
        stroke-width="2"
        stroke-linejoin="round"
      />
    </svg>
  );
}
