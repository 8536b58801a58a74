import type { LiveChangeEvent } from '../../../shared/api/types.ts';

export interface NumberedChange {
  readonly id: string;
  readonly change: LiveChangeEvent;
}

export interface ChangeRing {
  add(change: LiveChangeEvent): NumberedChange;
  /** Changes after the one with this id, oldest first; null when it is unknown or already pushed out: start anew. */
  after(lastEventId: string): NumberedChange[] | null;
  /** Id of the newest change, for a screen that starts now. */
  newestId(): string;
}

/**
 * The last `size` changes. Ids are `<start>-<number>`: a screen that comes back after a restart of the service brings an
 * id of another start and is told to fetch everything, instead of being given the wrong changes. ASCII only (W-4).
 */
export function createChangeRing(size: number, start: string): ChangeRing {
  const kept: NumberedChange[] = [];
  let count = 0;
  const idOf = (number: number) => `${start}-${number}`;
  return {
    add(change) {
      count += 1;
      const numbered = { id: idOf(count), change };
      kept.push(numbered);
      if (kept.length > size) kept.shift();
      return numbered;
    },
    after(lastEventId) {
      const number = numberOf(lastEventId, start);
      if (number === null || number > count || count - number > kept.length) return null;
      return number === count ? [] : kept.slice(number - count);
    },
    newestId: () => idOf(count),
  };
}

function numberOf(id: string, start: string): number | null {
  const match = /^(.+)-(\d{1,15})$/.exec(id);
  return match !== null && match[1] === start ? Number(match[2]) : null;
}
