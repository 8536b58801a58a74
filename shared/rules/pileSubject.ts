import type { Quality, QualityReason } from '../readings/reading.ts';
import type { PileMethod } from '../yard/method.ts';
import { pileConditions } from './allConditions.ts';
import type { Rule } from './condition.ts';
import { type Overrides, ruleFor } from './parameters.ts';
import type { PileView } from './pileView.ts';
import {
  addSample,
  atInstant,
  createPileWindow,
  type PileFacts,
  type PileWindow,
  settle,
} from './pileWindow.ts';
import { createSubject, isActiveOn, type Subject } from './subject.ts';
import type { TimeGrid } from './timeGrid.ts';

/** A reading routed to the placement it was taken in. */
export interface PileSample {
  readonly placementId: string;
  readonly timeMs: number;
  readonly value: number;
  readonly quality: Quality;
  /** Why it is not good; left out = not known, so that a doubtful reading proves nothing. */
  readonly reason?: QualityReason | null;
}

/** A pile's limits: what differs from the method's defaults, by condition, and which version that is. */
export interface PileLimits {
  readonly version: number;
  readonly overrides: Readonly<Record<string, Overrides>>;
}

export interface PileSubject {
  readonly subject: Subject<PileView, PileSample>;
  /** Replaced as a whole when late readings make it necessary to build it again. */
  window: PileWindow;
}

/** A pile under judgement with an empty window. Throws LimitError when a limit is not allowed. */
export function createPileSubject(
  facts: PileFacts,
  limits: PileLimits,
  yardAir: TimeGrid | null = null,
): PileSubject {
  const pileSubject = { window: createPileWindow(facts, yardAir) } as {
    -readonly [K in keyof PileSubject]: PileSubject[K];
  };
  const judged = {
    add: (sample: PileSample) => addSample(pileSubject.window, sample.placementId, sample),
    settle: (atMs: number) => settle(pileSubject.window, atMs),
    view: (atMs: number) => atInstant(pileSubject.window, atMs),
  };
  pileSubject.subject = createSubject<PileView, PileSample>({
    yardId: facts.pile.yardId,
    subject: { kind: 'pile', id: facts.pile.id },
    judged,
    rules: pileRules(facts, limits),
    limitsVersion: limits.version,
    quietTickMinutes: 60,
  });
  renewWindow(pileSubject, facts);
  return pileSubject;
}

/** Empties the window, to be filled again in time order. Timers and alarms stay. */
export function renewWindow(pileSubject: PileSubject, facts: PileFacts = pileSubject.window.facts): void {
  pileSubject.window = createPileWindow(facts, pileSubject.window.yardAir);
  pileSubject.window.isActive = (condition) => isActiveOn(pileSubject.subject, condition);
}

/** Fills the window without judging: what was judged before a restart, or before late readings. */
export function refill(pileSubject: PileSubject, samples: readonly PileSample[]): void {
  const { judged } = pileSubject.subject;
  samples.forEach((sample, index) => {
    judged.add(sample);
    if (samples[index + 1]?.timeMs !== sample.timeMs) judged.settle(sample.timeMs);
  });
}

/** The rules of a pile: every pile condition with the method's defaults and this pile's changes. */
export function pileRules(facts: PileFacts, limits: PileLimits): readonly Rule<PileView>[] {
  const { method } = facts.pile;
  if (Object.keys(limits.overrides).length === 0) return defaultRules(method);
  return pileConditions.map((condition) => ruleFor(condition, method, limits.overrides[condition.id] ?? {}));
}

/** One list for all piles of a method that nobody changed. */
const rulesByMethod = new Map<PileMethod, readonly Rule<PileView>[]>();

function defaultRules(method: PileMethod): readonly Rule<PileView>[] {
  const rules = rulesByMethod.get(method) ?? pileConditions.map((condition) => ruleFor(condition, method));
  rulesByMethod.set(method, rules);
  return rules;
}
