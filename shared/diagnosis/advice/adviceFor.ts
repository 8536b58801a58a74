import { hotLadder } from '../../compost/stability/hotLadder.ts';
import { fireDangerAction, fireDangerCautions } from '../../rules/advice.ts';
import type { CauseId } from '../causes.ts';
import type { Diagnosis } from '../diagnose.ts';
import { hotTroubles, type Trouble, waterTroubles } from '../trouble.ts';
import { anySteps } from './anySteps.ts';
import { cautionsFor, codesCaution, sentence } from './cautions.ts';
import { coldFallback, coldSteps } from './coldSteps.ts';
import { hotFallback, hotSteps } from './hotSteps.ts';
import { type Deed, isAllowed, isFireDanger, type Situation } from './safety.ts';
import type { AdviceStep } from './step.ts';
import { waterFallback, waterSteps } from './waterSteps.ts';

/** What to do about a cause. */
export interface Advice {
  /** Fits a text; safe to follow as it stands. */
  readonly firstAction: string;
  readonly actions: readonly AdvisedAction[];
  /** To be shown with the actions, every one of them. */
  readonly cautions: readonly string[];
}

export interface AdvisedAction {
  readonly text: string;
  readonly deeds: readonly Deed[];
  readonly source: string;
}

/** What is to be advised about. */
export interface AdviceRequest extends Situation {
  readonly trouble: Trouble;
  readonly cause: CauseId;
}

/**
 * Ordered actions and cautions for a cause in a situation, from the reviewed steps of this folder. Every step passes
 * the rules of `safety.ts`; at fire danger, or when the cause is smouldering, only the fire ladder speaks.
 */
export function adviceFor(request: AdviceRequest): Advice {
  if (isFireDanger(request) || request.cause === 'smouldering') return fireAdvice;
  const steps = fittingSteps(request);
  const first = steps.findIndex((step) => step.short !== undefined);
  const ordered = [steps[first]!, ...steps.filter((_, index) => index !== first)];
  const wanted = new Set(ordered.flatMap((step) => step.deeds));
  return {
    firstAction: ordered[0]!.short!,
    actions: ordered.map(({ text, deeds, source }) => ({ text, deeds, source })),
    cautions: cautionsFor(wanted, request),
  };
}

/**
 * Advice for a whole diagnosis: the likeliest cause's when it stands out; otherwise the check that would tell the
 * causes apart comes first, because acting on a guess may make it worse. A pile too hot is cooled first in any case.
 */
export function adviceForDiagnosis(diagnosis: Diagnosis, situation: Situation): Advice {
  const { trouble, causes, verdict, nextCheck } = diagnosis;
  const advice = adviceFor({ ...situation, trouble, cause: causes[0].cause });
  const mayWait = !hotTroubles.includes(trouble) && advice !== fireAdvice;
  if (verdict === 'clear' || nextCheck === null || !mayWait) return advice;
  const { ask, short, deeds } = nextCheck.check;
  const wanted = new Set([...deeds, ...advice.actions.flatMap((action) => action.deeds)]);
  return {
    firstAction: short,
    actions: [{ text: ask, deeds, source: 'greatest expected gain of information' }, ...advice.actions],
    cautions: cautionsFor(wanted, situation),
  };
}

const fireRungs = hotLadder.filter(({ fromCelsius }) => fromCelsius >= 80);

/** Without a core reading of the last day nobody may open it, and every other step rests on how hot it is. */
const readHeatFirst: AdviceStep = {
  text: 'How hot it is inside is not known: read the core with a long hand thermometer from the side before anything else, and log it.',
  short: 'Read the core with a long hand thermometer first; log it.',
  deeds: ['push-in'],
  source: 'ours: a lost or burnt-out probe reads cool',
};

/** The rungs of the ladder from 80 C up, in full: nobody at the pile knows how hot it is beyond the probe. */
const fireAdvice: Advice = {
  firstAction: fireDangerAction,
  actions: fireRungs.flatMap((rung) =>
    rung.do.map((text) => ({ text: sentence(text), deeds: [], source: rung.source })),
  ),
  cautions: [...fireDangerCautions, ...fireRungs.flatMap((rung) => rung.doNot.map(sentence)), codesCaution],
};

/** The cause's steps that are safe and fit; fallen back on what always is when none of them can come first. */
function fittingSteps(request: AdviceRequest): AdviceStep[] {
  const { own, fallback } = stepsFor(request);
  const known = request.hottestCelsius === null ? [readHeatFirst, ...own] : own;
  const steps = known.filter((step) => fits(step, request));
  if (steps.some((step) => step.short !== undefined)) return steps;
  return [...fallback.filter((step) => fits(step, request)), ...steps];
}

interface Steps {
  readonly own: readonly AdviceStep[];
  readonly fallback: readonly AdviceStep[];
}

function stepsFor({ trouble, cause }: AdviceRequest): Steps {
  if (hotTroubles.includes(trouble)) return { own: hotSteps[cause] ?? [], fallback: hotFallback };
  if (waterTroubles.includes(trouble))
    return { own: waterSteps[cause] ?? anySteps[cause] ?? [], fallback: waterFallback };
  return { own: coldSteps[cause] ?? anySteps[cause] ?? [], fallback: coldFallback };
}

function fits(step: AdviceStep, request: AdviceRequest): boolean {
  const hottest = request.hottestCelsius ?? Number.NEGATIVE_INFINITY;
  const allows = <Value>(list: readonly Value[] | undefined, value: Value | null) =>
    list === undefined || (value !== null && list.includes(value));
  return (
    allows(step.troubles, request.trouble) &&
    allows(step.methods, request.method) &&
    allows(step.stages, request.stage) &&
    allows(step.moisture, request.moisture) &&
    hottest >= (step.fromCelsius ?? Number.NEGATIVE_INFINITY) &&
    hottest < (step.belowCelsius ?? Number.POSITIVE_INFINITY) &&
    isAllowed(step.deeds, request)
  );
}
