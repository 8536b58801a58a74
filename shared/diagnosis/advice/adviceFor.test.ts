import { beforeAll, describe, expect, test } from 'vitest';
import { composeAlarmText } from '../../messages/compose.ts';
import { fireDangerAction, fireDangerCautions } from '../../rules/advice.ts';
import { mayBeTurned, pileMethods } from '../../yard/method.ts';
import { stages } from '../../yard/yard.ts';
import { type CauseId, causeIds } from '../causes.ts';
import { checks } from '../checks.ts';
import { diagnose } from '../diagnose.ts';
import { priorWeights } from '../priors.ts';
import { situationOf } from '../testing.ts';
import { troubles } from '../trouble.ts';
import { type Advice, type AdviceRequest, adviceFor, adviceForDiagnosis } from './adviceFor.ts';
import { anySteps } from './anySteps.ts';
import { codesCaution, physicalCautions } from './cautions.ts';
import { coldSteps } from './coldSteps.ts';
import { hotSteps } from './hotSteps.ts';
import { isAllowed, isFireDanger, type MoistureEvidence } from './safety.ts';
import { waterSteps } from './waterSteps.ts';

const heats = [null, 5, 35, 59.9, 60, 64.9, 65, 70.9, 71, 75.9, 76, 79.9, 80, 92, 95, 120];
const moistures: readonly MoistureEvidence[] = ['unknown', 'too-dry', 'fine', 'too-wet'];

/** Every combination of trouble, cause, method, stage, heat, trend, signs of fire and moisture: about a million. */
function* everyRequest(): Generator<AdviceRequest> {
  for (const trouble of troubles)
    for (const cause of causeIds)
      for (const method of pileMethods)
        for (const stage of [...stages, null])
          for (const hottestCelsius of heats)
            for (const moisture of moistures) {
              const request = { trouble, cause, method, stage, hottestCelsius, moisture };
              yield { ...request, isRising: false, hasSignsOfFire: false };
              yield { ...request, isRising: true, hasSignsOfFire: false };
              yield { ...request, isRising: false, hasSignsOfFire: true };
            }
}

/** What a person is told to do, without what they are told not to do. */
const asked = ({ firstAction, actions }: Advice) =>
  [firstAction, ...actions.map((action) => action.text)]
    .join('. ')
    .replaceAll(/\b(do not|never)\b[^.;:]*/gi, '');

const turning = /\bturn(ing|ed)?\b/i;
const opening =
  /\b(open|opening) (it|the hot|in)\b|\bdig\b|\btrowel\b|\bhandful\b|\bsqueeze|\bspread\b|\bpole\b/i;
const inHand = /\btrowel\b|\bhandful\b|\bsqueeze/i;
const addingNitrogen = /\bmix in (a )?rich|\bmanure\b|\bgrass\b/i;
const addingWater =
  /\bwater (it|slowly|very|every|while|from|them)\b|\b(re-)?wet (it|what)\b|\band water\b|\bwetting it\b/i;

type Rule = (advice: Advice, request: AdviceRequest, words: string) => boolean;

/** What must hold of every advice. */
const hardRules: Readonly<Record<string, Rule>> = {
  'at fire danger nobody is told to turn, open, dig, water or come near, and the fire service is named': (
    { firstAction },
    request,
    words,
  ) =>
    !isFireDanger(request) ||
    (![turning, opening, addingWater].some((deed) => deed.test(words)) &&
      firstAction === fireDangerAction &&
      /fire service/.test(words)),
  'a pile that is never turned is never told to be turned or opened up': (_advice, { method }, words) =>
    mayBeTurned(method) || !(turning.test(words) || /small bites/.test(words)),
  'no pile is turned, and no hand goes into it, from 71 C or when its heat is not known': (
    _advice,
    { hottestCelsius },
    words,
  ) => (hottestCelsius !== null && hottestCelsius < 71) || !(turning.test(words) || inHand.test(words)),
  'nitrogen is added only with evidence that the moisture is right, below 60 C': (
    _advice,
    { moisture, hottestCelsius },
    words,
  ) => (moisture === 'fine' && hottestCelsius !== null && hottestCelsius < 60) || !addingNitrogen.test(words),
  'water is never added against evidence that it is too wet': (_advice, { moisture }, words) =>
    moisture !== 'too-wet' || !addingWater.test(words),
  'there are actions, each with its source, and a first one that fits a text': (
    { firstAction, actions },
    request,
  ) =>
    firstAction.length <= (isFire(request) ? 72 : 60) &&
    actions.length > 0 &&
    actions.every((action) => action.source.length >= 4),
  'cautions about steam, lifting, dust and germs go with every step that brings a person to the pile': (
    { actions, cautions },
    request,
  ) => {
    const people = isFire(request) ? fireDangerCautions : physicalCautions;
    const isPhysical = isFire(request) || actions.some((action) => action.deeds.length > 0);
    return !isPhysical || people.every((caution) => cautions.includes(caution));
  },
  'local codes and the fire service come first, always': ({ cautions }) => cautions.includes(codesCaution),
};

const isFire = (request: AdviceRequest) => isFireDanger(request) || request.cause === 'smouldering';

/** One walk over all requests; for each rule the first advice that breaks it. */
function firstBreaks(): Map<string, string> {
  const breaks = new Map<string, string>();
  for (const request of everyRequest()) {
    const advice = adviceFor(request);
    const words = asked(advice);
    for (const [name, rule] of Object.entries(hardRules))
      if (!breaks.has(name) && !rule(advice, request, words))
        breaks.set(name, JSON.stringify({ request, advice }, null, 1));
  }
  return breaks;
}

describe('the hard rules, over every combination', () => {
  let breaks: Map<string, string>;
  beforeAll(() => {
    breaks = firstBreaks();
  }, 120_000);

  test.each(Object.keys(hardRules))('%s', (name) => {
    expect(breaks.get(name)).toBeUndefined();
  });
});

describe('the data', () => {
  const all = [coldSteps, hotSteps, waterSteps, anySteps].flatMap((table) => Object.values(table).flat());

  test('words and deeds agree, so that the rules see what a step asks', () => {
    for (const { text, short = '', deeds } of all) {
      const words = `${text} ${short}`.replaceAll(/\b(do not|never)\b[^.;:]*/gi, '');
      if (turning.test(words)) expect(deeds, text).toContain('turn');
      if (addingNitrogen.test(words) && !/next/.test(words)) expect(deeds, text).toContain('add-nitrogen');
      if (addingWater.test(words)) expect(deeds, text).toContain('water');
      if (/\b(handful|trowel)\b/i.test(words)) expect(deeds, text).toContain('handful');
      if (/\bpole\b/i.test(words)) expect(deeds, text).toContain('clear-channels');
      if (/small bites/i.test(words)) expect(deeds, text).toContain('open-in-bites');
      if (/\bstop watering\b/i.test(words)) expect(deeds, text).toContain('let-dry');
    }
  });

  test('every cause of every trouble has steps of its own', () => {
    for (const trouble of troubles) {
      const table = trouble === 'too-hot' ? hotSteps : /wet|drying/.test(trouble) ? waterSteps : coldSteps;
      for (const cause of Object.keys(priorWeights[trouble]) as CauseId[])
        expect(
          cause === 'smouldering' || (table[cause] ?? anySteps[cause]),
          `${trouble}, ${cause}`,
        ).toBeTruthy();
    }
  });

  test('a first action fits a text with everything else in it', () => {
    const shorts = all.flatMap((step) => step.short ?? []).concat(checks.map((check) => check.short));
    for (const firstAction of [...shorts, fireDangerAction]) {
      const text = composeAlarmText({
        name: 'Long pile name here',
        place: 'north east fence',
        what: 'stopped heating early',
        measured: { label: 'core', value: 38.2, limit: 40, unit: 'C' },
        temperatureUnit: 'F',
        lastedMinutes: 500,
        firstAction,
        code: 'K7',
        link: null,
      });
      expect(text).toContain(firstAction);
      expect(text).toContain('K7');
    }
  });
});

describe('advice in a few situations', () => {
  const advise = (change: Partial<AdviceRequest>) =>
    adviceFor({ ...situationOf(), trouble: 'stalled', cause: 'too-dry', ...change });

  test('a dry bin is turned and watered once a measurement says so', () => {
    expect(advise({}).firstAction).toMatch(/^Squeeze a handful/);
    expect(advise({ moisture: 'too-dry' }).firstAction).toMatch(/^Turn it and water/);
  });

  test('a dry cage is watered, not turned', () => {
    expect(advise({ method: 'static-cage', moisture: 'too-dry' }).firstAction).toMatch(/^Water it slowly/);
  });

  test('a lean bin gets rich material only when its moisture is known to be right', () => {
    const lean = { cause: 'nitrogen-short' } as const;
    expect(advise({ ...lean, moisture: 'fine' }).firstAction).toMatch(/^Turn it and mix in rich/);
    expect(advise(lean).firstAction).toMatch(/^Squeeze a handful/);
    expect(advise({ ...lean, moisture: 'too-dry' }).firstAction).toMatch(/^Put the moisture right/);
  });

  test('a hot bin is turned at 66 C, opened in bites at 73 C, left shut at 80 C', () => {
    const hot = (hottestCelsius: number) =>
      advise({ trouble: 'too-hot', cause: 'rich-mix', hottestCelsius }).firstAction;
    expect(hot(66)).toMatch(/^Turn it and wet/);
    expect(hot(73)).toMatch(/small bites/);
    expect(hot(80)).toBe(fireDangerAction);
  });

  test('smouldering is a fire at any reading', () => {
    expect(advise({ trouble: 'too-hot', cause: 'smouldering', hottestCelsius: 40 }).firstAction).toBe(
      fireDangerAction,
    );
  });

  test('when causes cannot be told apart the check comes first, but a hot pile is cooled first', () => {
    const situation = situationOf();
    const stalled = diagnose('stalled', {}, situation);
    expect(adviceForDiagnosis(stalled, situation).firstAction).toBe(stalled.nextCheck!.check.short);
    const hot = situationOf({ hottestCelsius: 68 });
    expect(adviceForDiagnosis(diagnose('too-hot', {}, hot), hot).firstAction).toMatch(/^Turn it and wet/);
  });

  test('a check is asked for only where its deeds are safe', () => {
    for (const request of everyRequest()) {
      if (request.cause !== 'too-dry' || request.stage !== null) continue;
      const { nextCheck } = diagnose(request.trouble, {}, request);
      if (nextCheck !== null) expect(isAllowed(nextCheck.check.deeds, request)).toBe(true);
    }
  });
});
