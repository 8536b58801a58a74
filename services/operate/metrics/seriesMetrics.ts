import type { ForwardState, ForwardStatus } from '../../series/port.ts';
import type { MetricFamily } from '../../web/port.ts';
import { counter, gauge, gauges } from './family.ts';

/** The local store, and how far judgement has come in it. `cursor` is the last sequence judged and stored. */
export function seriesFamilies(lastSequence: number, usedBytes: number, cursor: number): MetricFamily[] {
  return [
    gauge('tilth_series_last_sequence', 'Readings stored since the store was made.', lastSequence),
    gauge('tilth_series_used_bytes', 'Space the store of readings uses.', usedBytes),
    gauge(
      'tilth_judgement_cursor_backlog_readings',
      'Readings stored after the judgement cursor, which moves when a judgement is stored: a restart reads these again.',
      Math.max(0, lastSequence - cursor),
    ),
  ];
}

const forwardStates: readonly ForwardState[] = [
  ...(['caught-up', 'catching-up', 'away', 'busy', 'not-permitted', 'not-found', 'refused'] as const),
  'local-store',
];

/** Forwarding to InfluxDB. */
export function forwardFamilies(status: ForwardStatus, nowMs: number): MetricFamily[] {
  const { waitingSinceMs, disk } = status;
  const states = forwardStates.map((state) => ({
    labels: { state },
    value: state === status.state ? 1 : 0,
  }));
  return [
    gauges('tilth_forward_state', '1 for the state forwarding to InfluxDB is in.', states),
    gauge('tilth_forward_waiting_readings', 'Readings stored here and not yet there.', status.waiting),
    gauge(
      'tilth_forward_waiting_age_seconds',
      'Since when something waits to be forwarded; 0: nothing does.',
      waitingSinceMs === null ? 0 : Math.max(0, nowMs - waitingSinceMs) / 1000,
    ),
    counter('tilth_forward_written', 'Readings InfluxDB has taken.', status.written),
    gauge('tilth_forward_refused_readings', 'Readings InfluxDB refused one by one.', status.refused),
    gauge('tilth_forward_failures', 'Failed tries in a row.', status.failures),
    gauge(
      'tilth_forward_readings_per_second',
      'How fast what waits is being given to InfluxDB; 0: it is not catching up.',
      status.pace?.readingsPerSecond ?? 0,
    ),
    gauge(
      'tilth_forward_left_seconds',
      'How long catching up will take at that pace; 0: it is not catching up.',
      status.pace?.secondsLeft ?? 0,
    ),
    gauge('tilth_forward_local_limit_bytes', 'Space given to the local store.', disk.limitBytes),
  ];
}
