import type { Configuration } from '../configuration/schema.ts';
import type { ProbeDeskPort, SettingsPort } from '../web/port.ts';
import type { IngestRoom } from './ingestRoom.ts';

/** What the set-up screens may know of the services beside them. */
export function probeDesk({ ingest, broker }: Pick<IngestRoom, 'ingest' | 'broker'>): ProbeDeskPort {
  return {
    isConnected: (probeId) => broker?.statistics().connectedProbes.includes(probeId) ?? null,
    contactOf: ingest.contactOf,
    refusedSignIns: () => broker?.refusedSignIns() ?? [],
  };
}

export function settingsDesk(
  { http, broker, watch, series }: Configuration,
  lastHeartbeatMs: () => number | null,
): SettingsPort {
  return {
    httpHost: http.host,
    brokerHost: broker.host,
    isOwnBroker: broker.externalUrl === null,
    heartbeatIsSet: watch.heartbeatUrl !== null,
    heartbeatMinutes: watch.heartbeatMinutes,
    lastHeartbeatMs,
    outageMinutes: watch.outageMinutes,
    rawDays: series.rawDays,
  };
}
