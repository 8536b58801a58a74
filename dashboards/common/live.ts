import { signal } from '@preact/signals';
import { liveLostSeconds } from '../../shared/api/constants.ts';
import type { LiveChangeEvent, LiveTick } from '../../shared/api/types.ts';

/** Whether what is on screen can be trusted to be of now. `connecting` until the first tick. */
export const link = signal<'connecting' | 'live' | 'lost' | 'ended'>('connecting');

/** The service's time as this screen knows it; moves on between ticks at the pace the ticks show. */
export const serverNowMs = signal(Date.now());

let lastTick: { nowMs: number; at: number } | null = null;
/** Milliseconds of service time per millisecond here: 1 but in a demo that runs fast. */
let pace = 1;

function tick({ nowMs }: LiveTick): void {
  const at = performance.now();
  if (lastTick !== null && at - lastTick.at > 1000)
    pace = Math.max(0, (nowMs - lastTick.nowMs) / (at - lastTick.at));
  lastTick = { nowMs, at };
  link.value = 'live';
  moveClock();
}

function moveClock(): void {
  if (lastTick === null) return;
  const waited = performance.now() - lastTick.at;
  if (link.value === 'live' && waited > liveLostSeconds * 1000) link.value = 'lost';
  // A lost screen stands still: an advancing clock would make old numbers look watched.
  if (link.value === 'live') serverNowMs.value = Math.round(lastTick.nowMs + waited * pace);
}

/** Longest pause between two fetches while changes pour in. */
const gatherMs = 500;

export interface LiveHandlers {
  /** Something changed (or everything may have): fetch again. Calls are gathered. */
  refresh(changes: readonly LiveChangeEvent[]): void;
}

/** Follows the service's live events until the returned function is called. */
export function followLive(handlers: LiveHandlers): () => void {
  let gathered: LiveChangeEvent[] = [];
  let timer: ReturnType<typeof setTimeout> | null = null;
  let everLost = false;
  const flush = () => {
    timer = null;
    const changes = gathered;
    gathered = [];
    handlers.refresh(changes);
  };
  const gather = (change: LiveChangeEvent) => {
    gathered.push(change);
    timer ??= setTimeout(flush, gatherMs);
  };
  const source = new EventSource('/api/live');
  source.addEventListener('tick', (event) => {
    tick(JSON.parse((event as MessageEvent<string>).data) as LiveTick);
    if (everLost) gather({ kind: 'yard', id: null });
    everLost = false;
  });
  source.addEventListener('change', (event) =>
    gather(JSON.parse((event as MessageEvent<string>).data) as LiveChangeEvent),
  );
  source.addEventListener('reset', () => gather({ kind: 'yard', id: null }));
  source.addEventListener('end', () => {
    link.value = 'ended';
    source.close();
  });
  const clock = setInterval(() => {
    moveClock();
    if (link.value === 'lost') everLost = true;
  }, 1000);
  return () => {
    source.close();
    clearInterval(clock);
    if (timer !== null) clearTimeout(timer);
  };
}
