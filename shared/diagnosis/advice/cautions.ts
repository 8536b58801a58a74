import { hotLadder } from '../../compost/stability/hotLadder.ts';
import { steamCautions } from '../../rules/advice.ts';
import type { Deed, Situation } from './safety.ts';

/** Shown with every step that brings a person to the pile (reference pack, 5.4). */
export const physicalCautions: readonly string[] = [
  ...steamCautions,
  'Dust and spray carry germs and moulds: damp dust down, wear gloves and a mask, wash hands.',
  'Lift little at a time with a straight back, or with a second person.',
];

/** Shown always. */
export const codesCaution = 'Local codes and your fire service come first.';

const byDeed: Partial<Record<Deed, string>> = {
  turn: 'Turning lets gas out: in a shed or hall open the doors and stay upwind.',
  'open-in-bites': 'Opening lets gas out: stay upwind, and out of closed rooms.',
  handful: 'Use a trowel, not the bare hand: inside it may scald.',
  'push-in': 'A metal stem from a hot pile burns: hold it by its head.',
  'clear-channels': 'No face over a channel: hot, bad air comes up it.',
  'blow-air': 'Switch the blower off at once if you see or smell smoke.',
  'add-nitrogen': 'Fresh manure carries germs: keep it off hands and crops.',
};

/** Cautions that belong to deeds in a situation: of people, of each deed, of the heat. */
export function cautionsFor(wanted: ReadonlySet<Deed>, situation: Situation): string[] {
  const people = wanted.size > 0 ? physicalCautions : [];
  const own = [...wanted].flatMap((deed) => byDeed[deed] ?? []);
  return [...people, ...own, ...heatCautions(situation), codesCaution];
}

/** What the ladder says not to do at this heat, as sentences. */
export function heatCautions({ hottestCelsius }: Situation): string[] {
  if (hottestCelsius === null) return [];
  const rung = hotLadder.findLast((band) => hottestCelsius >= band.fromCelsius)!;
  return rung.doNot.map(sentence);
}

export function sentence(words: string): string {
  return `${words[0]!.toUpperCase()}${words.slice(1)}.`;
}
