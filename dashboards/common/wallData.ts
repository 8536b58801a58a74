import { signal } from '@preact/signals';
import type { LiveChangeEvent, WallView } from '../../shared/api/types.ts';
import { api, Refusal } from './api.ts';
import { showAs } from './format.ts';
import { forgetLastKnown, keepLastKnown, readLastKnown } from './lastKnown.ts';
import { endLive, followLive } from './live.ts';
import { standAt } from './liveClock.ts';
import { mergeWall, wantedPiles } from './mergeWall.ts';
import { keptAgeMs } from './NotLive.tsx';

/** What the yard shows, on the wall and in the app's list; null until the first answer. */
export const wall = signal<WallView | null>(null);

/** Why there is nothing (newer) to show, in words; null when the last fetch went well. */
export const trouble = signal<string | null>(null);

/** Fetches again after this long when the service could not be reached. */
const retryMs = 5000;
/** Everything is fetched anew this often, whatever the live link said: a wall hangs for months. */
const wholeEveryMs = 10 * 60_000;

/** Piles to fetch next; null: all of them. */
let wanted: ReadonlySet<string> | null = new Set();
let fetching = false;
let retry: ReturnType<typeof setTimeout> | undefined;

/** Notes what changed and fetches that; calls while a fetch is under way become one more fetch after it. */
function look(changes: readonly LiveChangeEvent[]): void {
  const more = wall.value === null ? null : wantedPiles(wall.value, changes);
  wanted = more === null || wanted === null ? null : new Set([...wanted, ...more]);
  if (wanted === null || wanted.size > 0) void fetchWanted();
}

async function fetchWanted(): Promise<void> {
  if (fetching) return;
  fetching = true;
  const asked = wanted;
  wanted = new Set();
  try {
    take(await api.get<WallView>(addressOf(asked)), asked);
  } catch (error) {
    wanted = null;
    await explain(error);
  }
  fetching = false;
  if (trouble.value === null && (wanted === null || wanted.size > 0)) await fetchWanted();
}

const addressOf = (asked: ReadonlySet<string> | null) =>
  asked === null ? '/api/wall' : `/api/wall?piles=${encodeURIComponent([...asked].join())}`;

function take(answer: WallView, asked: ReadonlySet<string> | null): void {
  showAs(answer.yard);
  wall.value = mergeWall(wall.value, answer, asked);
  trouble.value = null;
  keptAgeMs.value = null;
  keepLastKnown(wall.value);
}

async function explain(error: unknown): Promise<void> {
  trouble.value = error instanceof Refusal ? error.message : String(error);
  if (error instanceof Refusal && error.problem.status === 401) {
    forgetYard();
    endLive();
    return;
  }
  if (wall.value === null) await showLastKnown();
  // One at a time: chains of their own would pile up over a long night without a link.
  clearTimeout(retry);
  retry = setTimeout(() => void fetchWanted(), retryMs);
}

/** The service cannot be reached and this page has nothing yet: what this browser saw last is better than nothing. */
export async function showLastKnown(): Promise<void> {
  const known = await readLastKnown();
  if (known === null) return;
  const { yard, nowMs } = known.view;
  showAs(yard);
  standAt(nowMs);
  keptAgeMs.value = Math.max(0, Date.now() - known.keptMs);
  wall.value = known.view;
}

/** Signed out: what was seen is not the next person's to see. */
export function forgetYard(): void {
  wall.value = null;
  keptAgeMs.value = null;
  forgetLastKnown();
}

const everything: readonly LiveChangeEvent[] = [{ kind: 'yard', id: null }];

/** Starts the wall: first answer, then whatever the live link says. */
export function startWall(): () => void {
  look(everything);
  const unfollow = followLive({ refresh: look });
  const whole = setInterval(() => look(everything), wholeEveryMs);
  return () => {
    unfollow();
    clearInterval(whole);
  };
}
