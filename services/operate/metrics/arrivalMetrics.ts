import type { BrokerStatistics } from '../../broker/port.ts';
import type { IngestStatistics } from '../../ingest/port.ts';
import type { MetricFamily } from '../../web/port.ts';
import { counter, counters, gauge } from './family.ts';

/** Messages and readings on their way into the store. */
export function ingestFamilies(statistics: IngestStatistics, nowMs: number): MetricFamily[] {
  const { lastStoredMs, lastCommitMilliseconds } = statistics;
  const seconds = (ms: number | null) => (ms === null ? null : ms / 1000);
  return [
    counter('tilth_ingest_messages', 'MQTT messages taken in.', statistics.messages),
    counter('tilth_ingest_readings_stored', 'Readings stored.', statistics.readingsStored),
    counter('tilth_ingest_duplicates', 'Readings that were there already.', statistics.duplicates),
    counters('tilth_ingest_readings_doubted', 'Readings stored and not believed, by quality.', [
      { labels: { quality: 'bad' }, value: statistics.readingsBad },
      { labels: { quality: 'suspect' }, value: statistics.readingsSuspect },
    ]),
    counter(
      'tilth_ingest_quarantined',
      'Messages set aside because they could not be read.',
      statistics.quarantined,
    ),
    counter('tilth_ingest_records_ignored', 'Records that are no measurement.', statistics.recordsIgnored),
    counter(
      'tilth_ingest_storage_faults',
      'Messages that could not be stored; their senders keep them.',
      statistics.storageFaults,
    ),
    counter('tilth_ingest_commits', 'Groups of messages made durable.', statistics.commits),
    gauge('tilth_ingest_waiting_messages', 'Messages taken in and not yet durable.', statistics.waiting),
    gauge(
      'tilth_ingest_last_commit_seconds',
      'How long the last commit took.',
      seconds(lastCommitMilliseconds),
    ),
    gauge(
      'tilth_ingest_last_stored_age_seconds',
      'How long ago something new was stored.',
      lastStoredMs === null ? null : (nowMs - lastStoredMs) / 1000,
    ),
  ];
}

/** The built-in broker. */
export function brokerFamilies(statistics: BrokerStatistics): MetricFamily[] {
  return [
    gauge('tilth_broker_connections', 'Connections of probes that are signed in.', statistics.connections),
    gauge(
      'tilth_broker_connected_probes',
      'Probes with at least one connection.',
      statistics.connectedProbes.length,
    ),
    counter('tilth_broker_messages', 'Messages the broker let in.', statistics.messages),
    counter(
      'tilth_broker_messages_refused',
      'Messages refused at the door: wrong topic or too large.',
      statistics.messagesRefused,
    ),
    counter('tilth_broker_sign_ins_refused', 'Sign-ins refused.', statistics.signInsRefused),
  ];
}

/** The line to a broker of the yard's own. */
export function sourceFamilies(isConnected: boolean): MetricFamily[] {
  return [
    gauge('tilth_source_connected', '1 while connected to the MQTT broker, else 0.', isConnected ? 1 : 0),
  ];
}
