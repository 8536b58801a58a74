import { effect, signal } from '@preact/signals';
import { liveLostSeconds } from '../../shared/api/constants.ts';
import type { LiveTick } from '../../shared/api/types.ts';

/** Whether what is on screen can be trusted to be of now. `connecting` until the first tick, for a few seconds at most. */
export const link = signal<'connecting' | 'live' | 'lost' | 'ended'>('connecting');

/** The service's time as this screen knows it; moves on between ticks at the pace the ticks show. */
export const serverNowMs = signal(Date.now());

const slowStepMs = 10_000;
/** The same in steps of ten seconds: what shows ages in minutes need not wake up every second. */
export const slowNowMs = signal(floored(serverNowMs.peek()));
effect(() => {
  const now = floored(serverNowMs.value);
  if (now !== slowNowMs.peek()) slowNowMs.value = now;
});

function floored(timeMs: number): number {
  return Math.floor(timeMs / slowStepMs) * slowStepMs;
}

/** When the service was last heard, by this device's clock; null when never since this page was opened. */
let heardMs: number | null = null;
/** How long the service has not been heard, in steps of ten seconds; null when it is live or was never heard. */
export const quietMs = signal<number | null>(null);

/** Without a first tick after this long there is no link. */
const firstTickMs = 5000;

let lastTick: { nowMs: number; at: number } | null = null;
let openedAt = performance.now();
/** Milliseconds of service time per millisecond here: 1 but in a demo that runs fast. */
let pace = 1;

/** The service spoke: this is its time. */
export function takeTick({ nowMs }: LiveTick): void {
  const at = performance.now();
  if (lastTick !== null && at - lastTick.at > 1000)
    pace = Math.max(0, (nowMs - lastTick.nowMs) / (at - lastTick.at));
  lastTick = { nowMs, at };
  heardMs = Date.now();
  quietMs.value = null;
  link.value = 'live';
  moveClock();
}

/** A link is being made (again): it has a few seconds to say something. */
export function startWaiting(): void {
  openedAt = performance.now();
  lastTick = null;
  link.value = 'connecting';
}

/** Sets the clock to when something kept was true, and leaves it standing there. */
export function standAt(timeMs: number): void {
  if (link.value !== 'live') serverNowMs.value = timeMs;
}

/** Called every second: moves the clock, and finds that the link has gone quiet. */
export function moveClock(): void {
  if (link.value === 'lost' && heardMs !== null) quietMs.value = floored(Date.now() - heardMs);
  if (link.value === 'connecting' && performance.now() - openedAt > firstTickMs) link.value = 'lost';
  if (lastTick === null) return;
  const waited = performance.now() - lastTick.at;
  if (link.value === 'live' && waited > liveLostSeconds * 1000) link.value = 'lost';
  // A lost screen stands still: an advancing clock would make old numbers look watched.
  if (link.value === 'live') serverNowMs.value = Math.round(lastTick.nowMs + waited * pace);
}
