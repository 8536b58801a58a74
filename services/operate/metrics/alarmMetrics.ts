import { alarmStates, priorities } from '../../../shared/alarms/alarm.ts';
import type { AlarmCount, OutboxStanding } from '../../records/port.ts';
import type { MetricFamily } from '../../web/port.ts';
import { gauge, gauges } from './family.ts';

/** Every state and priority, also those there is none of, so that a curve does not begin in the middle. */
export function alarmFamilies(counts: readonly AlarmCount[]): MetricFamily[] {
  const known = new Map(counts.map(({ state, priority, count }) => [`${state} ${priority}`, count]));
  const samples = alarmStates.flatMap((state) =>
    priorities.map((priority) => ({
      labels: { state, priority },
      value: known.get(`${state} ${priority}`) ?? 0,
    })),
  );
  return [gauges('tilth_alarms', 'Alarms by state and priority, over all yards.', samples)];
}

/** The outbox. */
export function messageFamilies({ counts, oldestWaitingMs }: OutboxStanding, nowMs: number): MetricFamily[] {
  const samples = Object.entries(counts).map(([state, value]) => ({ labels: { state }, value }));
  const age = oldestWaitingMs === null ? 0 : Math.max(0, nowMs - oldestWaitingMs) / 1000;
  return [
    gauges('tilth_messages', 'Texts and other messages by state.', samples),
    gauge('tilth_messages_oldest_waiting_seconds', 'How long the oldest unsent message waits; 0: none.', age),
  ];
}
