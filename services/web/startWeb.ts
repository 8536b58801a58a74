import { randomBytes } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import type { Logger } from 'pino';
import type { Alarm } from '../../shared/alarms/alarm.ts';
import type { AlarmWords } from '../../shared/api/types.ts';
import { allConditions } from '../../shared/rules/allConditions.ts';
import { type Clock, systemClock } from '../clock.ts';
import type { ChannelDeskPort, GatewayCallbackPort, NotifyPort } from '../notify/port.ts';
import type { Records } from '../records/port.ts';
import type { RulesPort } from '../rules/port.ts';
import type { SeriesStore } from '../series/port.ts';
import type { App } from './app.ts';
import { buildApp } from './buildApp.ts';
import type { FactsChange } from './factsChanged.ts';
import type { House, Statistics, WebConfig } from './house.ts';
import { createLiveHub, type LiveHub } from './live/hub.ts';
import { OutlookDesk } from './outlook/outlookDesk.ts';
import type { LiveChange, OperationsPort, ProbeDeskPort, SettingsPort, WebPort } from './port.ts';
import { openKnownBrowsers } from './sign-in/knownBrowser.ts';
import { createPasswordHasher } from './sign-in/passwordHasher.ts';
import { createSignInThrottle } from './sign-in/signInThrottle.ts';
import { createShortCache } from './views/shortCache.ts';

export type { FactsChange } from './factsChanged.ts';
export type { Statistics, WebConfig } from './house.ts';
export { createSignInLink, ensureFirstSetup } from './sign-in/links.ts';

export interface WebOptions {
  readonly records: Records;
  readonly series: SeriesStore;
  readonly rules: RulesPort;
  readonly notify?: NotifyPort;
  /** Left out where messages leave by another process. */
  readonly channels?: ChannelDeskPort | null;
  /** What calls of the text gateway are handed to; left out: there are no such addresses. */
  readonly gateway?: GatewayCallbackPort | null;
  /** A person changed what ingest, broker or others keep in memory; rules are told by their own port. */
  readonly onFactsChanged?: (change: FactsChange) => void;
  /** Something changed here that screens elsewhere should hear of; told back by `announce`. Left out: told here only. */
  readonly onAnnounced?: (changes: readonly LiveChange[]) => void;
  /** The yard's time. */
  readonly clock: Clock;
  /** Real time for sessions, links and throttling; given only by tests. */
  readonly realClock?: Clock;
  readonly config: WebConfig;
  /** What an alarm says to people, from who can look at the pile; left out: pages show name and evidence only. */
  readonly wordsFor?: (alarm: Alarm) => Promise<AlarmWords | null>;
  /** Likely causes and what to do; left out: pages show words only. */
  readonly explain?: House['explain'];
  readonly statistics?: Statistics;
  /** What `/readyz` and `/metrics` tell; left out: always ready, and no numbers. */
  readonly operations?: OperationsPort;
  /** How probes get through; left out: messages are taken in elsewhere. */
  readonly probeDesk?: ProbeDeskPort;
  /** What the screens tell an owner of the configuration; left out: nothing. */
  readonly settings?: SettingsPort;
  readonly logger: Logger;
}

export interface Web extends WebPort {
  /** Where it listens, e.g. `http://127.0.0.1:8477`. */
  readonly url: string;
  /** Address for people: the configured one, else `url`. */
  readonly publicUrl: string;
  /** Changes may have passed unheard: every screen fetches everything again. */
  announceAll(): void;
  stop(): Promise<void>;
}

/** Starts the API, live events and screens. Rejects when the address cannot be listened on or the options contradict. */
export async function startWeb(options: WebOptions): Promise<Web> {
  const { app, house, hub, listening } = await prepareWeb(options);
  await app.listen({ host: options.config.host, port: options.config.port });
  const url = addressOf(app, options.config);
  listening(url);
  return {
    url,
    publicUrl: house.publicUrl(),
    announce: hub.announce,
    announceAll: hub.reset,
    stop: () => app.close(),
  };
}

/** The application without a listening socket, for tests that hand it requests directly. */
export async function prepareWeb(
  options: WebOptions,
): Promise<{ app: App; house: House; hub: LiveHub; listening: (url: string) => void }> {
  let ownUrl = `http://${options.config.host}`;
  const { house, hub } = await openHouse(options, () => ownUrl);
  const app = await buildApp(house);

  const listening = (url: string) => {
    ownUrl = url;
  };
  return { app, house, hub, listening };
}

async function openHouse(options: WebOptions, ownUrl: () => string): Promise<{ house: House; hub: LiveHub }> {
  const { config } = options;
  const publicUrl = config.publicUrl?.replace(/\/+$/, '') ?? null;
  const isHttps = publicUrl === null ? config.tls !== null : publicUrl.startsWith('https:');
  const wallCache: House['wallCache'] = createShortCache();
  const dataTimeCache: House['dataTimeCache'] = createShortCache();
  const forget = () => {
    wallCache.forget();
    dataTimeCache.forget();
  };
  // Tells this run of the service from the next one; see `live/ring.ts`.
  const hub = createLiveHub(randomBytes(6).toString('hex'), forget);
  const house: House = {
    records: options.records,
    series: options.series,
    rules: options.rules,
    notify: options.notify ?? null,
    channels: options.channels ?? null,
    gateway: options.gateway ?? null,
    onFactsChanged: options.onFactsChanged ?? (() => {}),
    clock: options.clock,
    realClock: options.realClock ?? systemClock,
    config,
    conditions: allConditions,
    wordsFor: options.wordsFor ?? (async () => null),
    explain: options.explain ?? (async () => null),
    passwords: createPasswordHasher(),
    throttle: createSignInThrottle(),
    knownBrowsers: await openKnownBrowsers(options.records),
    live: { ...hub, announce: options.onAnnounced ?? hub.announce },
    wallCache,
    dataTimeCache,
    outlooks: new OutlookDesk(),
    designs: new OutlookDesk(),
    statistics: options.statistics ?? (() => ({})),
    operations: options.operations ?? { readiness: async () => [], metrics: async () => [] },
    probeDesk: options.probeDesk ?? null,
    settings: options.settings ?? null,
    logger: options.logger,
    publicUrl: () => publicUrl ?? ownUrl(),
    secureCookies: config.secureCookies ?? isHttps,
  };
  return { house, hub };
}

function addressOf(app: App, config: WebConfig): string {
  const { address, port, family } = app.server.address() as AddressInfo;
  // "All addresses" is no address to open: this machine's own is.
  const named = address === '0.0.0.0' || address === '::' ? 'localhost' : address;
  const host = family === 'IPv6' && named.includes(':') ? `[${named}]` : named;
  return `${config.tls === null ? 'http' : 'https'}://${host}:${port}`;
}
