import { nothingKnown, type ServiceFacts } from './serviceFacts.ts';

/** A yard's probes at one instant; reused, so read it at once. */
export interface YardView {
  readonly kind: 'yard';
  nowMs: number;
  yardName: string;
  /** Probes that stand in a pile or measure the yard's air. */
  probesPlaced: number;
  probesSilent: number;
  services: ServiceFacts;
}

/** A yard of which nothing is known yet. */
export function createYardView(yardName: string): YardView {
  return {
    kind: 'yard',
    nowMs: Number.NEGATIVE_INFINITY,
    yardName,
    probesPlaced: 0,
    probesSilent: 0,
    services: nothingKnown,
  };
}
