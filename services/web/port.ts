import type { YardId } from '../../shared/yard/yard.ts';
import type { RefusedSignIn } from '../broker/port.ts';
import type { ProbeContact } from '../ingest/port.ts';
import type { MetricFamily } from './metrics/openMetrics.ts';

export type { MetricFamily, MetricSample } from './metrics/openMetrics.ts';

/** What changed, told to open screens by server-sent events. Ids grow, so a screen can resume after a lost link. */
export type LiveChange =
  | ({ /** Only screens of this yard are told. */ readonly yardId: YardId } & (
      | { readonly kind: 'pile'; readonly pileId: string }
      | { readonly kind: 'alarm'; readonly alarmId: string }
      | { readonly kind: 'probe'; readonly probeId: string }
      | { readonly kind: 'yard' | 'people' | 'messages' | 'quarantine' }
    ))
  /** Whose message it was is not known: every yard looks again, and learns nothing of another one by it. */
  | { readonly kind: 'messages'; readonly yardId: null };

/** What other services may tell web in the same process. */
export interface WebPort {
  announce(changes: readonly LiveChange[]): void;
}

/** How a probe gets through, known only to the process that takes messages. */
export interface ProbeDeskPort {
  /** Whether it is signed in just now; null where the broker is one of the yard's own. */
  isConnected(probeId: string): boolean | null;
  contactOf(probeId: string): ProbeContact | null;
  /** Last refused sign-in under each name, newest first. */
  refusedSignIns(): readonly RefusedSignIn[];
}

/** What of the configuration the screens may tell an owner, and what its watches say. */
export interface SettingsPort {
  /** Host the screens, and the built-in broker, listen on. */
  readonly httpHost: string;
  readonly brokerHost: string;
  /** The broker is the built-in one. */
  readonly isOwnBroker: boolean;
  readonly heartbeatIsSet: boolean;
  readonly heartbeatMinutes: number;
  readonly lastHeartbeatMs: () => number | null;
  readonly outageMinutes: number | null;
  readonly rawDays: number | null;
}

/** Whether one part of the program can do its work just now. */
export interface ReadinessCheck {
  /** `records`, `series`, `readings`, `judgement`... */
  readonly name: string;
  readonly isReady: boolean;
  /** How it stands, in plain words, and what to do when it is not ready. Holds no secret: anybody may read it. */
  readonly text: string;
}

/** What watches of a machine room ask of the whole program; whoever puts the services together knows it. */
export interface OperationsPort {
  readiness(): Promise<readonly ReadinessCheck[]>;
  metrics(): Promise<readonly MetricFamily[]>;
}
