import type { Logger } from 'pino';
import type { Alarm } from '../../shared/alarms/alarm.ts';
import type { AlarmWords, WallView } from '../../shared/api/types.ts';
import type { Explanation } from '../../shared/diagnosis/explain.ts';
import type { TemperatureUnit } from '../../shared/yard/yard.ts';
import type { Clock } from '../clock.ts';
import type { ChannelDeskPort, GatewayCallbackPort, NotifyPort } from '../notify/port.ts';
import type { Records } from '../records/port.ts';
import type { RulesPort } from '../rules/port.ts';
import type { SeriesStore } from '../series/port.ts';
import type { ConditionFacts } from './conditionFacts.ts';
import type { FactsChange } from './factsChanged.ts';
import type { LiveHub } from './live/hub.ts';
import type { OutlookDesk } from './outlook/outlookDesk.ts';
import type { OperationsPort, ProbeDeskPort, SettingsPort } from './port.ts';
import type { KnownBrowsers } from './sign-in/knownBrowser.ts';
import type { PasswordHasher } from './sign-in/passwordHasher.ts';
import type { SignInThrottle } from './sign-in/signInThrottle.ts';
import type { ShortCache } from './views/shortCache.ts';

/** What web needs to be told at start; the whole program's configuration is checked where it is read. */
export interface WebConfig {
  readonly host: string;
  /** 0 takes a free port. */
  readonly port: number;
  /** Address people reach this yard by, without a slash at its end; null: made from host and port. */
  readonly publicUrl: string | null;
  /**
   * `__Host-` cookies with Secure. Null: as `publicUrl` says (https yes, http no). See `sign-in/cookies.ts` for why plain
   * HTTP gets plain cookie names.
   */
  readonly secureCookies: boolean | null;
  /** Folder Vite built the screens into. */
  readonly dashboardsFolder: string;
  /** True only behind a reverse proxy of one's own: client addresses then come from X-Forwarded-For. */
  readonly trustProxy: boolean;
  /** PEM texts; null serves plain HTTP. */
  readonly tls: { readonly certificate: string; readonly key: string } | null;
  /** What a new probe is told about the broker. */
  readonly mqtt: { readonly host: string; readonly port: number; readonly tls: boolean };
  /** Lets a monitor on another machine read `/metrics`; null or left out: this machine only. */
  readonly metricsToken?: string | null;
  /** Channel a test text goes out by. */
  readonly textChannel: 'sms-http' | 'sms-modem';
  /** A text sent back is heard; left out: it is not. */
  readonly canReply?: boolean;
}

/** Numbers of the running service a keeper may look at: `{ "ingest.stored": 12034 }`. */
export type Statistics = () => Readonly<Record<string, number | string | null>>;

/** Everything a route handler may use. One per running web service. */
export interface House {
  readonly records: Records;
  readonly series: SeriesStore;
  readonly rules: RulesPort;
  readonly notify: NotifyPort | null;
  /** The channels, where messages leave by this very process; null where another one sends them. */
  readonly channels: ChannelDeskPort | null;
  /** What the text gateway's calls are handed to; null where none is expected. */
  readonly gateway: GatewayCallbackPort | null;
  readonly onFactsChanged: (change: FactsChange) => void;
  /** The yard's time: readings, alarms, journal. In the demo it runs fast. */
  readonly clock: Clock;
  /** Real time: sessions, links and throttling must not age at the demo's speed. */
  readonly realClock: Clock;
  readonly config: WebConfig;
  readonly conditions: readonly ConditionFacts[];
  /** What an alarm says to people: what it is, what to do first, cautions; null when nothing is known. */
  /** Likely causes of an alarm and what to do about them; null where nothing is known. */
  readonly explain: (alarm: Alarm, unit: TemperatureUnit) => Promise<Explanation | null>;
  readonly wordsFor: (alarm: Alarm) => Promise<AlarmWords | null>;
  readonly passwords: PasswordHasher;
  readonly throttle: SignInThrottle;
  readonly knownBrowsers: KnownBrowsers;
  readonly live: LiveHub;
  readonly wallCache: ShortCache<WallView>;
  readonly dataTimeCache: ShortCache<number | null>;
  /** Fits and usual courses; and, apart so that they never wait for one, plans worked out again. */
  readonly outlooks: OutlookDesk;
  readonly designs: OutlookDesk;
  readonly statistics: Statistics;
  readonly operations: OperationsPort;
  /** Null where messages are taken in by another process. */
  readonly probeDesk: ProbeDeskPort | null;
  /** Null where nobody told. */
  readonly settings: SettingsPort | null;
  readonly logger: Logger;
  /** Known once listening; without a slash at its end. */
  readonly publicUrl: () => string;
  readonly secureCookies: boolean;
}
