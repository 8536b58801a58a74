import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Configuration } from '../configuration/schema.ts';
import type { ChannelDeskPort, NotifyPort } from '../notify/port.ts';
import type { RulesPort } from '../rules/port.ts';
import type { OperationsPort, ProbeDeskPort } from '../web/port.ts';
import { startWeb, type Web, type WebConfig } from '../web/startWeb.ts';
import type { Ground } from './ground.ts';
import { gatewayCalls } from './notifyRoom.ts';
import { hearsTexts, textChannel } from './rulesRoom.ts';
import { settingsDesk } from './webDesk.ts';

export interface WebRoomOptions {
  readonly rules: Required<RulesPort>;
  readonly notify: NotifyPort;
  readonly channels: ChannelDeskPort | null;
  readonly operations: OperationsPort;
  /** Null where messages are taken in by another process. */
  readonly probeDesk: ProbeDeskPort | null;
  readonly lastHeartbeatMs: () => number | null;
  /** Numbers of this process a keeper may look at. */
  readonly statistics: () => Readonly<Record<string, number | string | null>>;
  /** Port the built-in broker of this process listens on; null where it runs elsewhere or there is none. */
  readonly brokerPort: number | null;
}

/** Screens and API; what they hear of comes over the changes, from this process and from others. */
export async function startWebRoom(ground: Ground, options: WebRoomOptions): Promise<Web> {
  const { records, store, clock, logger, changes } = ground;
  const { rules, notify, channels, operations, statistics, probeDesk } = options;
  const web = await startWeb({
    ...{ records, series: store.series, rules, notify, channels, clock, logger },
    ...{ operations, statistics, ...(probeDesk === null ? {} : { probeDesk }) },
    settings: settingsDesk(ground.configuration, options.lastHeartbeatMs),
    gateway: gatewayCalls(ground, () => rules),
    config: webConfig(ground.configuration, options.brokerPort),
    wordsFor: rules.wordsFor,
    explain: rules.explain,
    onFactsChanged: (change) => changes.tell({ kind: 'facts', ...change }),
    onAnnounced: (screens) => changes.tell({ kind: 'screens', changes: screens }),
  });
  changes.listen('screens', (change) => web.announce(change.changes));
  changes.listen('missed', web.announceAll);
  ground.publicUrl = () => web.publicUrl;
  return web;
}

function webConfig(configuration: Configuration, brokerPort: number | null): WebConfig {
  const { http } = configuration;
  return {
    host: http.host,
    port: http.port,
    publicUrl: http.publicUrl,
    secureCookies: null,
    dashboardsFolder: fileURLToPath(new URL('../../dashboards/dist', import.meta.url)),
    trustProxy: http.trustProxy,
    tls: readTls(http.tls),
    mqtt: brokerAddress(configuration.broker, brokerPort),
    textChannel: textChannel(configuration),
    canReply: hearsTexts(configuration),
    metricsToken: http.metricsToken,
  };
}

function readTls(tls: Configuration['http']['tls']): WebConfig['tls'] {
  if (tls === null) return null;
  return { certificate: readFileSync(tls.certificateFile, 'utf8'), key: readFileSync(tls.keyFile, 'utf8') };
}

/** What a new probe is told: our own broker's address, or that of the yard's. */
function brokerAddress(broker: Configuration['broker'], ownPort: number | null): WebConfig['mqtt'] {
  if (broker.externalUrl === null)
    return { host: broker.host, port: ownPort ?? broker.port, tls: broker.tls !== null };
  const { hostname, port, protocol } = new URL(broker.externalUrl);
  const tls = protocol === 'mqtts:' || protocol === 'wss:';
  return { host: hostname, port: port === '' ? (tls ? 8883 : 1883) : Number(port), tls };
}
