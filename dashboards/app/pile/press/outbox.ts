import { effect, signal } from '@preact/signals';
import type { JournalEntryView } from '../../../../shared/api/types.ts';
import { api, Refusal } from '../../../common/api.ts';
import { link } from '../../../common/live.ts';
import { fetchSession, session } from '../../session.ts';
import { afterFailure, type Deed, holdMs, isDue, newPressKey, type Outcome, type Press } from './press.ts';
import { pressStore } from './pressStore.ts';

/** Presses that have not arrived yet, oldest first. */
export const waiting = signal<readonly Press[]>([]);
/** This browser keeps nothing (a private window, a full disk): presses live as long as the page. */
export const isForgetful = signal(false);
/** The one being sent just now: too late to undo. */
export const inFlight = signal<string | null>(null);
/** Counts up with each press that arrived, so that pages fetch anew. */
export const arrived = signal(0);

let sending = false;
let timer: ReturnType<typeof setTimeout> | null = null;

/** Keeps a press and sends it when its moment for undoing is over and there is a link. */
export async function press(
  pileId: string,
  said: string,
  deed: Deed,
  photo: Blob | null = null,
): Promise<void> {
  const personId = session.peek()?.person?.id;
  if (personId === undefined) return;
  const made: Press = {
    ...{ key: newPressKey(), pileId, personId, words: said, deed, photo },
    ...{ holdUntilMs: Date.now() + holdMs, tries: 0, nextTryMs: 0, refusal: null },
  };
  waiting.value = [...waiting.peek(), made];
  await keep(made);
  plan();
}

/** Takes a press back that has not left yet, or puts a refused one away. */
export async function withdraw(key: string): Promise<void> {
  waiting.value = waiting.peek().filter((each) => each.key !== key);
  await pressStore.remove(key).catch(() => {});
}

/** Called once when the app opens: what an earlier page left is sent. */
export function openOutbox(): void {
  pressStore.all().then(
    (left) => {
      const known = new Set(waiting.peek().map(({ key }) => key));
      const earlier = left.filter(({ key }) => !known.has(key));
      waiting.value = [...earlier, ...waiting.peek()].sort((a, b) => a.holdUntilMs - b.holdUntilMs);
      plan();
    },
    () => {
      isForgetful.value = true;
    },
  );
  // A link again, somebody signed in: what waits longer need not.
  effect(() => {
    if (link.value === 'live' && session.value?.person) void send();
  });
  addEventListener('online', () => void send());
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) void send(true);
  });
}

async function keep(changed: Press): Promise<void> {
  try {
    await pressStore.put(changed);
  } catch {
    isForgetful.value = true;
  }
}

/** Sees to it that the next press that falls due is sent. */
function plan(): void {
  if (timer !== null) clearTimeout(timer);
  const open = waiting.peek().filter(({ refusal }) => refusal === null);
  if (open.length === 0) return;
  const dueMs = Math.min(...open.map((each) => Math.max(each.holdUntilMs, each.nextTryMs)));
  timer = setTimeout(() => void send(), Math.max(250, dueMs - Date.now()));
}

/** Sends what is due, one after the other in the order in which it was pressed. */
async function send(hurry = false): Promise<void> {
  if (sending) return;
  sending = true;
  try {
    const personId = session.peek()?.person?.id ?? null;
    for (const each of waiting.peek().filter((one) => isDue(one, personId, Date.now(), hurry))) {
      // Undone while others were being sent.
      if (!waiting.peek().some(({ key }) => key === each.key)) continue;
      inFlight.value = each.key;
      const outcome = await tryOnce(each, hurry);
      inFlight.value = null;
      if (outcome === null) await done(each);
      else await failed(each, outcome);
      if (outcome?.status === 0) break;
    }
  } finally {
    sending = false;
    inFlight.value = null;
    plan();
  }
}

async function done({ key }: Press): Promise<void> {
  await withdraw(key);
  arrived.value += 1;
}

async function failed(tried: Press, outcome: Outcome): Promise<void> {
  const changed = afterFailure(tried, outcome, Date.now());
  waiting.value = waiting.peek().map((each) => (each.key === tried.key ? changed : each));
  await keep(changed);
  if (outcome.status === 401) await fetchSession().catch(() => {});
}

async function tryOnce({ key, deed, photo }: Press, hurry: boolean): Promise<Outcome | null> {
  try {
    if (deed.kind === 'alarm') {
      await api.post(`/api/alarms/${encodeURIComponent(deed.alarmId)}/${deed.action}`, deed.body, hurry);
      return null;
    }
    const path = `/api/piles/${encodeURIComponent(deed.pileId)}/journal`;
    const { id } = await api.post<JournalEntryView>(path, { ...deed.body, pressKey: key }, hurry);
    if (photo !== null) await api.put(`/api/journal/${encodeURIComponent(id)}/photo`, photo);
    return null;
  } catch (error) {
    if (error instanceof Refusal) return { status: error.problem.status, detail: error.message };
    return { status: 0, detail: String(error) };
  }
}
