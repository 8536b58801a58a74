import type { YardId } from '../yard/yard.ts';
import { probeConditions, yardConditions } from './allConditions.ts';
import type { Rule } from './condition.ts';
import { ruleFor } from './parameters.ts';
import {
  addProbeReading,
  createProbeWindow,
  type ProbeFacts,
  type ProbeReading,
  type ProbeView,
  type ProbeWindow,
} from './probeWindow.ts';
import { nothingKnown, type ServiceFacts } from './serviceFacts.ts';
import { createSubject, isActiveOn, type Subject } from './subject.ts';
import { createYardView, type YardView } from './yardView.ts';

export interface ProbeSubject {
  readonly subject: Subject<ProbeView, ProbeReading>;
  readonly window: ProbeWindow;
}

/** A probe under judgement. `isYardSilent` says whether most of the yard's probes are silent at an instant. */
export function createProbeSubject(
  yardId: YardId,
  facts: ProbeFacts,
  isYardSilent: (atMs: number) => boolean,
): ProbeSubject {
  const window = createProbeWindow(facts, isYardSilent);
  const judged = {
    add: (reading: ProbeReading) => addProbeReading(window, reading),
    settle: () => {},
    view: (atMs: number) => {
      window.view.nowMs = atMs;
      return window.view;
    },
  };
  const subject = createSubject<ProbeView, ProbeReading>({
    yardId,
    subject: { kind: 'probe', id: facts.probeId },
    judged,
    rules: probeRules(),
    limitsVersion: 0,
    quietTickMinutes: 5,
  });
  return { subject, window };
}

let rulesOfProbes: readonly Rule<ProbeView>[] | null = null;

/** Probe conditions do not depend on the method: their defaults are the same for all, and one list serves them. */
function probeRules(): readonly Rule<ProbeView>[] {
  rulesOfProbes ??= probeConditions.map((condition) => ruleFor(condition, 'static-cage'));
  return rulesOfProbes;
}

/**
 * A yard under judgement; `count` says how many of its placed probes are silent at an instant, `services` how the
 * program itself stands.
 */
export function createYardSubject(
  yardId: YardId,
  yardName: string,
  count: (atMs: number) => { readonly placed: number; readonly silent: number },
  services: () => ServiceFacts = () => nothingKnown,
): Subject<YardView, never> {
  const view = createYardView(yardName);
  return createSubject<YardView, never>({
    yardId,
    subject: { kind: 'yard', id: yardId },
    judged: {
      add: () => {},
      settle: () => {},
      view: (atMs) => {
        const { placed, silent } = count(atMs);
        view.nowMs = atMs;
        view.probesPlaced = placed;
        view.probesSilent = silent;
        view.services = services();
        return view;
      },
    },
    rules: yardConditions.map((condition) => ruleFor(condition, 'static-cage')),
    limitsVersion: 0,
    quietTickMinutes: 5,
  });
}

/** Whether the yard's own condition holds at an instant: then its probes' alarms are hidden behind the yard's. */
export function isYardSilent(subject: Subject<YardView, never>, atMs: number): boolean {
  const view = subject.judged.view(atMs);
  return subject.rules.some(({ condition, parameters }) => {
    if (condition.id !== 'probe-silent') return false;
    const isActive = isActiveOn(subject, condition.id);
    return isActive || condition.truth(view, parameters, isActive) === 'true';
  });
}
