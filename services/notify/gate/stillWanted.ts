import type { Alarm } from '../../../shared/alarms/alarm.ts';
import type { Message } from '../../records/port.ts';

/**
 * Whether a message about an alarm still says something: it stands as it did, and nobody has seen it yet. Fire danger
 * goes on being told to the others after one has seen it.
 */
export function isStillWanted(
  { occurrence, priority }: Pick<Message, 'occurrence' | 'priority'>,
  alarm: Pick<Alarm, 'occurrence' | 'state'>,
): boolean {
  if (alarm.occurrence !== occurrence) return false;
  const { state } = alarm;
  if (state === 'unacknowledged' || state === 'latched-unacknowledged') return true;
  return priority === 'highest' && (state === 'acknowledged' || state === 'latched-acknowledged');
}
