import type { PileMethod } from '../yard/method.ts';
import { type Deed, isAllowed, type Situation } from './advice/safety.ts';
import type { KindId } from './kind.ts';
import type { Trouble } from './trouble.ts';

/** Something a person could look at, and the kind of observation it gives. */
export interface Check {
  readonly id: string;
  readonly kind: KindId;
  /** Kinds that make this check pointless once known. */
  readonly answeredBy: readonly KindId[];
  readonly ask: string;
  /** Fits a text. */
  readonly short: string;
  /** 1 for a minute's work, less for more trouble or waiting: weighs the gain. Judgement. */
  readonly ease: number;
  readonly deeds: readonly Deed[];
  readonly methods: readonly PileMethod[] | null;
  readonly troubles: readonly Trouble[] | null;
}

const anyPile = { methods: null, troubles: null } as const;

/** Checks a grower can make, easiest first. */
export const checks: readonly Check[] = [
  {
    id: 'squeeze-test',
    kind: 'squeezeScore',
    answeredBy: ['squeezeScore'],
    ask: 'Take a handful from inside with a trowel and squeeze it: dust, crumbles, a few drops, a stream, or drips by itself? Log the score 1 to 5.',
    short: 'Squeeze a handful from inside; log it 1 (dust) to 5 (drips).',
    ease: 1,
    deeds: ['handful'],
    ...anyPile,
  },
  {
    id: 'squeeze-against-probe',
    kind: 'squeezeAgainstProbe',
    answeredBy: ['squeezeAgainstProbe'],
    ask: 'Squeeze a handful from beside the moisture probe and log it 1 to 5: does the hand agree with the probe?',
    short: 'Squeeze a handful beside the moisture probe; log it 1 to 5.',
    ease: 1,
    deeds: ['handful'],
    ...anyPile,
  },
  {
    id: 'smell',
    kind: 'smell',
    answeredBy: ['smell'],
    ask: 'Smell it from a step back, or a handful held away from the face: nothing, earthy, sour, ammonia, or burnt? Log which.',
    short: 'Smell it from a step back: earthy, sour, ammonia? Log it.',
    ease: 0.95,
    deeds: ['go-near'],
    ...anyPile,
  },
  {
    id: 'look-inside',
    kind: 'look',
    answeredBy: ['look'],
    ask: "Lift out a little from arm's length inside with a trowel and look: dry and white, wet and slimy, dark and crumbly, or moist and unchanged? Put it back.",
    short: "Look at a trowelful from arm's length inside; log it.",
    ease: 0.75,
    deeds: ['handful'],
    ...anyPile,
  },
  {
    id: 'hand-thermometer',
    kind: 'handMinusProbeCelsius',
    answeredBy: ['handMinusProbeCelsius'],
    ask: 'Push a hand thermometer in beside the probe, wait until it stands still, and log the reading.',
    short: 'Read the core with a hand thermometer; log it.',
    ease: 0.85,
    deeds: ['push-in'],
    ...anyPile,
  },
  {
    id: 'air-path',
    kind: 'airPath',
    answeredBy: ['airPath'],
    ask: 'Look down the air channels with a lamp, or at the blower and its pipes: open, or blocked?',
    short: 'Look: are the air channels or pipes open? Log it.',
    ease: 0.9,
    deeds: ['go-near'],
    methods: ['static-cage', 'aerated-static-pile'],
    troubles: null,
  },
  {
    id: 'base',
    kind: 'baseWater',
    answeredBy: ['baseWater'],
    ask: 'Look at the base: does water stand or seep there?',
    short: 'Look at its base: does water stand there? Log it.',
    ease: 0.95,
    deeds: ['go-near'],
    ...anyPile,
  },
  {
    id: 'cover',
    kind: 'cover',
    answeredBy: ['cover'],
    ask: 'Is it covered? Log covered or uncovered.',
    short: 'Is it covered just now? Log covered or uncovered.',
    ease: 0.95,
    deeds: ['go-near'],
    ...anyPile,
  },
  {
    id: 'edge-reading',
    kind: 'coreMinusEdgeCelsius',
    answeredBy: ['coreMinusEdgeCelsius'],
    ask: 'Read the edge as well, a hand deep, with a hand thermometer, and log it.',
    short: 'Read the edge too, a hand deep; log it.',
    ease: 0.75,
    deeds: ['push-in'],
    ...anyPile,
  },
  {
    id: 'second-probe',
    kind: 'coresApartCelsius',
    answeredBy: ['coresApartCelsius'],
    ask: 'Put a second probe in the core, at least an arm away from the first, and read both after an hour.',
    short: 'Put a second probe in the core; compare after an hour.',
    ease: 0.6,
    deeds: ['push-in'],
    ...anyPile,
  },
  {
    id: 'wait-after-turn',
    kind: 'afterTurn',
    answeredBy: ['afterTurn', 'afterBoth'],
    ask: 'Turn it once without watering and wait 48 hours: reheating means it was short of air.',
    short: 'Turn it once, no water; see in 48 h if it reheats.',
    ease: 0.5,
    deeds: ['turn'],
    ...anyPile,
  },
  {
    id: 'wait-after-water',
    kind: 'afterWater',
    answeredBy: ['afterWater', 'afterBoth'],
    ask: 'Water it slowly right through and wait 48 hours: reheating means it was dry.',
    short: 'Water it slowly; see in 48 h if it reheats.',
    ease: 0.5,
    deeds: ['water'],
    ...anyPile,
  },
];

/** Checks that can be asked for: safe now, fitting the pile, and not answered already. */
export function availableChecks(trouble: Trouble, situation: Situation, known: ReadonlySet<KindId>): Check[] {
  return checks.filter(
    (check) =>
      (check.methods === null || check.methods.includes(situation.method)) &&
      (check.troubles === null || check.troubles.includes(trouble)) &&
      !check.answeredBy.some((kind) => known.has(kind)) &&
      isAllowed(check.deeds, situation),
  );
}
