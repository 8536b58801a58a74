import type { LiveChangeEvent, LiveTick } from '../../shared/api/types.ts';
import { link, moveClock, startWaiting, takeTick } from './liveClock.ts';

export { link, serverNowMs, slowNowMs } from './liveClock.ts';

/** Changes come in bursts: this long is waited for the rest of one. */
const burstMs = 20;
/** Shortest pause between two fetches while changes pour in. */
const pauseMs = 500;
/** A link the browser has given up is asked for anew this often. */
const reopenMs = 5000;
/** Moving from one screen to the next must not cost the link. */
const lingerMs = 1000;

export interface LiveHandlers {
  /** Something changed (or everything may have, kind `yard`): fetch again. Calls are gathered. */
  refresh(changes: readonly LiveChangeEvent[]): void;
}

const everything: LiveChangeEvent = { kind: 'yard', id: null };
const followers = new Set<LiveHandlers>();
let source: EventSource | null = null;
let clock: ReturnType<typeof setInterval> | undefined;
let gathered: LiveChangeEvent[] = [];
let gatherTimer: ReturnType<typeof setTimeout> | null = null;
let flushedAt = Number.NEGATIVE_INFINITY;
let openedAt = 0;
let everLost = false;

/**
 * Follows the service's live events until the returned function is called. All followers of a page share one link:
 * browsers allow six connections to a service over plain HTTP, and each link holds one.
 */
export function followLive(handlers: LiveHandlers): () => void {
  followers.add(handlers);
  if (source === null && !document.hidden) open();
  return () => {
    followers.delete(handlers);
    setTimeout(() => {
      if (followers.size === 0) close();
    }, lingerMs);
  };
}

function open(): void {
  startWaiting();
  openedAt = performance.now();
  source = new EventSource('/api/live');
  source.addEventListener('tick', (event) => {
    takeTick(dataOf<LiveTick>(event));
    if (everLost) gather(everything);
    everLost = false;
  });
  source.addEventListener('change', (event) => gather(dataOf<LiveChangeEvent>(event)));
  source.addEventListener('reset', () => gather(everything));
  source.addEventListener('end', endLive);
  clock ??= setInterval(() => {
    moveClock();
    if (link.value !== 'lost') return;
    everLost = true;
    // After some refusals (a restarting proxy) a browser gives up by itself: then it is asked anew.
    const given = source?.readyState === EventSource.CLOSED;
    if (given && performance.now() - openedAt > reopenMs) reopen();
  }, 1000);
}

/** The service will not speak to this browser any more: nothing is asked again until a screen follows anew. */
export function endLive(): void {
  close();
  link.value = 'ended';
}

function reopen(): void {
  source?.close();
  open();
  link.value = 'lost';
}

function close(): void {
  source?.close();
  source = null;
  clearInterval(clock);
  clock = undefined;
  // Not lost, but not live either: a clock that nobody moves must not look as if it ran.
  if (link.value === 'live') link.value = 'connecting';
}

const dataOf = <T>(event: Event) => JSON.parse((event as MessageEvent<string>).data) as T;

function gather(change: LiveChangeEvent): void {
  gathered.push(change);
  if (gatherTimer !== null) return;
  gatherTimer = setTimeout(flush, Math.max(burstMs, flushedAt + pauseMs - performance.now()));
}

function flush(): void {
  gatherTimer = null;
  flushedAt = performance.now();
  const changes = gathered;
  gathered = [];
  for (const follower of followers) follower.refresh(changes);
}

// A page nobody looks at needs no link: it spares the phone's battery and leaves the connections to other pages.
document.addEventListener('visibilitychange', () => {
  if (document.hidden) close();
  else if (source === null && followers.size > 0 && link.value !== 'ended') {
    everLost = true;
    open();
  }
});
