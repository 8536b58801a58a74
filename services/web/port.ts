import type { YardId } from '../../shared/yard/yard.ts';
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
