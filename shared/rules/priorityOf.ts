import type { Priority } from '../alarms/alarm.ts';

/**
 * Three questions kept apart, after the axes of the Common Alerting Protocol 1.2 (urgency, severity, certainty; reference
 * pack section 6), in our own words:
 * - how soon somebody must act: `now` (within the hour), `soon` (today), `later` (this week);
 * - what is at stake: `danger` (people, fire), `batch` (the pile: a year's work), `quality` (time, feed value, a probe),
 *   `upkeep` (nothing yet);
 * - how sure we are: `seen` (measured), `likely` (more probable than not), `possible`.
 */
export type Urgency = 'now' | 'soon' | 'later';
export type Stake = 'danger' | 'batch' | 'quality' | 'upkeep';
export type Sureness = 'seen' | 'likely' | 'possible';

/** Most pressing first; what is only possible counts one step less, danger never does. */
const table: Readonly<Record<Stake, Readonly<Record<Urgency, Priority>>>> = {
  danger: { now: 'highest', soon: 'highest', later: 'high' },
  batch: { now: 'high', soon: 'high', later: 'medium' },
  quality: { now: 'high', soon: 'medium', later: 'low' },
  upkeep: { now: 'medium', soon: 'low', later: 'low' },
};

const oneLess: Readonly<Record<Priority, Priority>> = {
  highest: 'high',
  high: 'medium',
  medium: 'low',
  low: 'low',
};

/** The priority of an alarm, the one place where it is decided. */
export function priorityOf(urgency: Urgency, stake: Stake, sureness: Sureness): Priority {
  const priority = table[stake][urgency];
  return sureness === 'possible' && stake !== 'danger' ? oneLess[priority] : priority;
}
