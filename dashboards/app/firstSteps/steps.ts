import type {
  CalibrationView,
  MessageView,
  PersonView,
  PileView,
  PlacementView,
  ProbeView,
  WallLinkView,
} from '../../../shared/api/types.ts';

/**
 * The walk through a new yard, in the order things depend on each other. Ice comes before places: a sensor that stands in a
 * pile by the records and falls to 0 C is judged.
 */
export const stepKeys = ['yard', 'people', 'pile', 'probe', 'ice', 'channels', 'text', 'wall'] as const;
export type StepKey = (typeof stepKeys)[number];

/** What the yard holds, which is all the walk remembers: it can be left anywhere, on one phone, and gone on with on another. */
export interface SetUpFacts {
  /** People who can be reached by something. */
  readonly people: readonly PersonView[];
  readonly reachableIds: readonly string[];
  readonly piles: readonly PileView[];
  readonly probes: readonly ProbeView[];
  readonly placements: readonly PlacementView[];
  readonly calibrations: readonly CalibrationView[];
  readonly messages: readonly MessageView[];
  readonly wallLinks: readonly WallLinkView[];
}

/** Which steps the yard has behind it. */
export function doneSteps(facts: SetUpFacts): ReadonlySet<StepKey> {
  const isDone: Readonly<Record<StepKey, boolean>> = {
    yard: true,
    people: facts.reachableIds.length > 0,
    pile: facts.piles.some(({ endedMs }) => endedMs === null),
    probe: facts.probes.some(({ channels }) => channels.length > 0),
    channels: facts.placements.some(({ toMs, pileId }) => toMs === null && pileId !== null),
    ice: facts.calibrations.length > 0,
    text: facts.messages.some(({ state }) => state === 'sent' || state === 'delivered'),
    wall: facts.wallLinks.some(({ revokedMs }) => revokedMs === null),
  };
  return new Set(stepKeys.filter((key) => isDone[key]));
}

/** The first step that is still to be done; null when the walk is over. */
export function nextStep(done: ReadonlySet<StepKey>): StepKey | null {
  return stepKeys.find((key) => !done.has(key)) ?? null;
}

/** The step after this one; null after the last. */
export function stepAfter(key: StepKey): StepKey | null {
  return stepKeys[stepKeys.indexOf(key) + 1] ?? null;
}
