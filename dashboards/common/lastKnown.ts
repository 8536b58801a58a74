import type { WallView } from '../../shared/api/types.ts';

/** The last wall this browser saw, kept for when the service cannot be reached. Shown only with its age and as not live. */
export interface LastKnown {
  readonly view: WallView;
  /** This device's own clock when it was kept: the only clock there is without the service. */
  readonly keptMs: number;
}

const cacheName = 'tilth-last-known';
const entry = '/last-known-wall';
/** A wall of 200 piles is most of a megabyte: written once a minute, not with every reading. */
const keepEveryMs = 60_000;
let keptAt = Number.NEGATIVE_INFINITY;

/** Keeps a view; calls within a minute of the last one do nothing. Browsers offer this over HTTPS and on localhost only. */
export function keepLastKnown(view: WallView): void {
  if (!('caches' in globalThis) || performance.now() - keptAt < keepEveryMs) return;
  keptAt = performance.now();
  const kept: LastKnown = { view, keptMs: Date.now() };
  // A full disk must not trouble a wall that is live.
  caches
    .open(cacheName)
    .then((cache) => cache.put(entry, new Response(JSON.stringify(kept))))
    .catch(() => {});
}

export async function readLastKnown(): Promise<LastKnown | null> {
  if (!('caches' in globalThis)) return null;
  const found = await caches.match(entry, { cacheName }).catch(() => undefined);
  return found === undefined ? null : ((await found.json()) as LastKnown);
}

/** Signed out or shut out: what the yard looked like is no longer this browser's to show. */
export function forgetLastKnown(): void {
  keptAt = Number.NEGATIVE_INFINITY;
  if ('caches' in globalThis) void caches.delete(cacheName).catch(() => {});
}
