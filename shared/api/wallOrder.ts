import { type AlarmState, priorities } from '../alarms/alarm.ts';
import type { WallPile } from './types.ts';

/** How a wall may be ordered: by what is most wanted, as one walks along the yard, or by its map. */
export const wallOrders = ['worst', 'place', 'map'] as const;
export type WallOrder = (typeof wallOrders)[number];

const collator = new Intl.Collator('en', { numeric: true });

/** By the most pressing alarm (nobody has seen it before seen), then by name so that quiet piles keep their place. */
export function worstFirst(one: WallPile, other: WallPile): number {
  return badness(one) - badness(other) || collator.compare(one.name, other.name);
}

/** By where they stand, then by name: the wall then reads like a walk through the yard and nothing ever moves. */
export function byPlace(one: WallPile, other: WallPile): number {
  return collator.compare(one.place, other.place) || collator.compare(one.name, other.name);
}

const seenStates: readonly AlarmState[] = ['acknowledged', 'latched-acknowledged'];

function badness(pile: WallPile): number {
  const worst = pile.alarms[0];
  if (worst === undefined) return priorities.length * 2;
  return priorities.indexOf(worst.priority) * 2 + (seenStates.includes(worst.state) ? 1 : 0);
}
