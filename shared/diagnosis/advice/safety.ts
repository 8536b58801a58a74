import { fireDangerCelsius } from '../../rules/advice.ts';
import { mayBeTurned, type PileMethod } from '../../yard/method.ts';
import type { Stage } from '../../yard/yard.ts';

/** What a step asks a person to do with a pile. Every step of advice and every check names its deeds. */
export const deeds = [
  'turn',
  'open-in-bites',
  'handful',
  'push-in',
  'clear-channels',
  'blow-air',
  'water',
  'let-dry',
  'add-nitrogen',
  'add-carbon',
  'cover',
  'roof',
  'uncover',
  'lower',
  'enlarge',
  'go-near',
] as const;

export type Deed = (typeof deeds)[number];

/** What moisture measurements say, judged against the method; `unknown` when there is none. */
export type MoistureEvidence = 'unknown' | 'too-dry' | 'fine' | 'too-wet';

/** All that decides whether a deed is safe to advise. */
export interface Situation {
  readonly method: PileMethod;
  readonly stage: Stage | null;
  /** Highest core of the last 24 h, because a lost or burnt-out probe reads cool; null when not known. */
  readonly hottestCelsius: number | null;
  readonly isRising: boolean;
  /** Smoke, glow, ash, vent holes, or a burnt, caramel or tobacco smell. */
  readonly hasSignsOfFire: boolean;
  readonly moisture: MoistureEvidence;
}

/** Still rising above this, heat is no longer alive: fire danger too (house plan, section 6; ours). */
export const risingFireDangerCelsius = 76;

/** The pile must stay shut and people away: fire service first (reference pack, 5.3). */
export function isFireDanger({ hottestCelsius, isRising, hasSignsOfFire }: Situation): boolean {
  const hottest = hottestCelsius ?? Number.NEGATIVE_INFINITY;
  return hasSignsOfFire || hottest >= fireDangerCelsius || (isRising && hottest >= risingFireDangerCelsius);
}

interface SafetyRule {
  readonly applies: (situation: Situation) => boolean;
  readonly forbids: readonly Deed[];
  readonly source: string;
}

const hotterThan = (celsius: number) => (situation: Situation) =>
  (situation.hottestCelsius ?? Number.NEGATIVE_INFINITY) >= celsius;

/** The hard rules, all of them, in one place. A deed that any rule forbids is never advised. */
export const safetyRules: readonly SafetyRule[] = [
  { applies: isFireDanger, forbids: deeds, source: 'Surrey Fire and Rescue; stacked hay guidance at 79.4 C' },
  {
    applies: hotterThan(71),
    forbids: ['turn', 'handful', 'clear-channels', 'blow-air', 'cover', 'roof', 'lower', 'enlarge'],
    source: 'Surrey Fire and Rescue, 70-80 C: small bites with a charged hose, never the whole pile dry',
  },
  {
    applies: hotterThan(60),
    forbids: ['add-nitrogen', 'cover', 'enlarge'],
    source: 'ladder of the reference pack, 5.3: no rich feed from 60 C, no tight cover from 65 C',
  },
  {
    // Not knowing how hot it is is no licence to open it.
    applies: ({ hottestCelsius }) => hottestCelsius === null,
    forbids: [
      'turn',
      'open-in-bites',
      'handful',
      'clear-channels',
      'lower',
      'add-nitrogen',
      'cover',
      'enlarge',
    ],
    source: 'ours: a lost or burnt-out probe reads cool',
  },
  {
    applies: ({ method }) => !mayBeTurned(method),
    forbids: ['turn', 'open-in-bites'],
    source: 'reference pack, section 6: these piles are never turned',
  },
  {
    applies: ({ method }) => method === 'worm-bed',
    forbids: ['add-nitrogen', 'enlarge'],
    source: 'reference pack, 7.1: fresh feed re-heats a worm bed; above 35 C it kills the worms',
  },
  {
    applies: ({ moisture }) => moisture !== 'fine',
    forbids: ['add-nitrogen'],
    source: 'house plan: never add nitrogen without moisture evidence; a dry or sodden pile looks the same',
  },
  {
    applies: ({ moisture }) => moisture === 'too-wet',
    forbids: ['water'],
    source: 'Cornell, AgriFutures: above about 60 % a pile may turn airless',
  },
  {
    applies: ({ moisture }) => moisture === 'too-dry',
    forbids: ['let-dry'],
    source: 'Cornell: work nearly stops below 30 %; dry piles are a fire risk',
  },
];

/** Deeds that must not be advised in a situation. */
export function forbiddenDeeds(situation: Situation): ReadonlySet<Deed> {
  return new Set(safetyRules.filter((rule) => rule.applies(situation)).flatMap((rule) => rule.forbids));
}

/** Whether all of these deeds may be advised. */
export function isAllowed(wanted: readonly Deed[], situation: Situation): boolean {
  const forbidden = forbiddenDeeds(situation);
  return wanted.every((deed) => !forbidden.has(deed));
}
