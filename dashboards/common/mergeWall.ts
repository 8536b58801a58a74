import type { LiveChangeEvent, WallPile, WallView } from '../../shared/api/types.ts';

/** More piles than this are not asked for one by one; the service allows 50. */
const mostPilesAsked = 40;

/**
 * Which piles must be fetched for what changed; null: all of them. An alarm that is not on the wall yet may be any
 * pile's or the yard's own.
 */
export function wantedPiles(view: WallView, changes: readonly LiveChangeEvent[]): Set<string> | null {
  const wanted = new Set<string>();
  for (const { kind, id } of changes) {
    if (kind === 'yard') return null;
    if (kind === 'pile' && id !== null) wanted.add(id);
    if (kind !== 'alarm') continue;
    const pile = view.piles.find(({ alarms }) => alarms.some((alarm) => alarm.id === id));
    if (pile === undefined) return null;
    wanted.add(pile.id);
  }
  return wanted.size > mostPilesAsked ? null : wanted;
}

/**
 * The wall after an answer for `asked` piles (null: all). Piles the answer says nothing new about stay the very same
 * objects, so that only tiles that changed are drawn again; an asked pile that is not in the answer has ended.
 */
export function mergeWall(
  before: WallView | null,
  answer: WallView,
  asked: ReadonlySet<string> | null,
): WallView {
  const known = new Map(before?.piles.map((pile) => [pile.id, pile]));
  const fresh = new Map(answer.piles.map((pile) => [pile.id, sameIfEqual(known.get(pile.id), pile)]));
  if (asked === null || before === null) return { ...answer, piles: [...fresh.values()] };
  const kept = before.piles.filter(({ id }) => !asked.has(id));
  return { ...answer, piles: [...kept, ...fresh.values()] };
}

function sameIfEqual(before: WallPile | undefined, now: WallPile): WallPile {
  return before !== undefined && JSON.stringify(before) === JSON.stringify(now) ? before : now;
}
