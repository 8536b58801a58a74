import { liveTickSeconds } from '../../../shared/api/constants.ts';
import type { LiveChangeEvent, LiveTick } from '../../../shared/api/types.ts';
import type { YardId } from '../../../shared/yard/yard.ts';
import type { Asker } from '../access/asker.ts';
import type { LiveChange } from '../port.ts';
import { eventText, heartbeatText } from './eventText.ts';
import { mayHear } from './mayHear.ts';
import { type ChangeRing, createChangeRing } from './ring.ts';

/** One open screen. */
export interface Listener {
  /** Of no other yard does it hear anything, not even that something happened there. */
  readonly yardId: YardId;
  asker: Asker;
  /** Says whether it could take the text; false ends it (a screen that does not read must not fill our memory). */
  readonly write: (text: string) => boolean;
  readonly close: () => void;
  /** Who it belongs to now; `none` when the session is over. */
  readonly askAgain: () => Promise<Asker>;
  readonly tick: () => Promise<LiveTick>;
}

export interface LiveHub {
  announce(changes: readonly LiveChange[]): void;
  /** Nobody knows what changed: every screen fetches everything again, also one that resumes later. */
  reset(): void;
  /** Too many are listening for one more. */
  isFull(): boolean;
  /** Starts telling a screen; `lastEventId` is where its lost link stopped. Returns what stops it. */
  listen(listener: Listener, lastEventId: string | null): () => void;
  /** A session, a role or a wall link changed: asks every stream who it belongs to now and ends those that are over. */
  recheck(): Promise<void>;
  /** How many screens are listening. */
  count(): number;
  /** Sends everything gathered now instead of in a moment. */
  flush(): void;
  close(): void;
}

export interface LiveTimes {
  /** How long changes are gathered, so that thirty piles judged in one pass are one small burst without doubles. */
  readonly gatherMs: number;
  readonly tickMs: number;
  readonly heartbeatMs: number;
  readonly ringSize: number;
  readonly mostListeners: number;
}

export const usualLiveTimes: LiveTimes = {
  gatherMs: 100,
  tickMs: liveTickSeconds * 1000,
  heartbeatMs: 15_000,
  ringSize: 2000,
  mostListeners: 500,
};

/** `start` tells one run of the service from the next; see `ring.ts`. `onChange` hears every change first. */
export function createLiveHub(start: string, onChange: () => void, times = usualLiveTimes): LiveHub {
  const rings = new Map<YardId, ChangeRing>();
  let resets = 0;
  const listeners = new Set<Listener>();
  const gathered = new Map<string, LiveChange>();
  let gatherTimer: NodeJS.Timeout | null = null;
  const tickTimer = setInterval(() => void tickAll(listeners), times.tickMs).unref();
  const heartbeatTimer = setInterval(() => void beat(listeners), times.heartbeatMs).unref();

  function flush(): void {
    if (gatherTimer !== null) clearTimeout(gatherTimer);
    gatherTimer = null;
    for (const change of gathered.values())
      for (const yardId of change.yardId === null ? [...rings.keys()] : [change.yardId]) {
        tellYard(listeners, yardId, ringOf(yardId).add(asEvent(change)));
      }
    gathered.clear();
  }

  function ringOf(yardId: YardId): ChangeRing {
    const ring =
      rings.get(yardId) ?? createChangeRing(times.ringSize, resets === 0 ? start : `${start}r${resets}`);
    rings.set(yardId, ring);
    return ring;
  }

  return {
    announce(changes) {
      if (changes.length === 0) return;
      onChange();
      for (const change of changes) {
        gathered.set(`${change.yardId} ${change.kind} ${asEvent(change).id}`, change);
      }
      gatherTimer ??= setTimeout(flush, times.gatherMs).unref();
    },
    reset() {
      onChange();
      gathered.clear();
      resets += 1;
      rings.clear();
      for (const listener of [...listeners])
        if (!listener.write(eventText('reset', {}, ringOf(listener.yardId).newestId())))
          drop(listeners, listener);
    },
    isFull: () => listeners.size >= times.mostListeners,
    listen(listener, lastEventId) {
      flush();
      const ring = ringOf(listener.yardId);
      catchUp(listener, lastEventId === null ? [] : ring.after(lastEventId), ring.newestId());
      listeners.add(listener);
      void tickAll([listener]);
      return () => listeners.delete(listener);
    },
    recheck: () => checkAll(listeners),
    count: () => listeners.size,
    flush,
    close() {
      flush();
      clearInterval(tickTimer);
      clearInterval(heartbeatTimer);
      for (const listener of listeners) listener.close();
      listeners.clear();
    },
  };
}

function catchUp(
  listener: Listener,
  missed: readonly { readonly id: string; readonly change: LiveChangeEvent }[] | null,
  newestId: string,
): void {
  if (missed === null) {
    listener.write(eventText('reset', {}, newestId));
    return;
  }
  for (const { id, change } of missed) {
    if (mayHear(listener.asker, change)) listener.write(eventText('change', change, id));
  }
  // An id without data sets where to resume from and fires nothing (W-2): also past what was not for this screen.
  listener.write(`id: ${newestId}\n\n`);
}

function tellYard(
  listeners: Set<Listener>,
  yardId: YardId,
  { id, change }: { readonly id: string; readonly change: LiveChangeEvent },
): void {
  for (const listener of [...listeners].filter((each) => each.yardId === yardId)) {
    const text = mayHear(listener.asker, change) ? eventText('change', change, id) : `id: ${id}\n\n`;
    if (!listener.write(text)) drop(listeners, listener);
  }
}

async function tickAll(listeners: Iterable<Listener>): Promise<void> {
  for (const listener of [...listeners]) {
    // A fault of a store is told by the missing tick: the screen then says that it is not live.
    const tick = await listener.tick().catch(() => null);
    if (tick !== null) listener.write(eventText('tick', tick));
  }
}

/** Every heartbeat also asks whether the session still stands: it may have run out or been ended by another process. */
async function beat(listeners: Set<Listener>): Promise<void> {
  await checkAll(listeners);
  for (const listener of [...listeners]) if (!listener.write(heartbeatText)) drop(listeners, listener);
}

async function checkAll(listeners: Set<Listener>): Promise<void> {
  for (const listener of [...listeners]) {
    const asker = await listener.askAgain().catch(() => listener.asker);
    if (asker.kind === 'none') end(listeners, listener);
    else listener.asker = asker;
  }
}

function end(listeners: Set<Listener>, listener: Listener): void {
  listener.write(eventText('end', {}));
  drop(listeners, listener);
}

function drop(listeners: Set<Listener>, listener: Listener): void {
  listeners.delete(listener);
  listener.close();
}

function asEvent(change: LiveChange): LiveChangeEvent {
  switch (change.kind) {
    case 'pile':
      return { kind: change.kind, id: change.pileId };
    case 'alarm':
      return { kind: change.kind, id: change.alarmId };
    case 'probe':
      return { kind: change.kind, id: change.probeId };
    default:
      return { kind: change.kind, id: null };
  }
}
