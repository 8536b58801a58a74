/// <reference lib="webworker" />
/**
 * Keeps the screens' own files so that they open without the service. Answers of the API never pass through here: what is
 * shown without a link comes from `common/lastKnown.ts`, with its age.
 */
declare const self: ServiceWorkerGlobalScope & {
  /** Written before this file by the build: every file of the screens. */
  readonly tilthFiles: readonly string[];
  /** Differs whenever any of them does. */
  readonly tilthVersion: string;
};

const cacheName = `tilth-screens-${self.tilthVersion}`;
const oursBegin = 'tilth-screens-';
/** Pages, each with the file that serves it. A slow link is waited for this long before the kept page is shown. */
const pages = ['/', '/wall'];
const patienceMs = 4000;

self.addEventListener('install', (event) => {
  event.waitUntil(keepScreens().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOld().then(() => self.clients.claim()));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname, search } = new URL(request.url);
  if (request.method !== 'GET' || origin !== self.location.origin) return;
  if (request.mode === 'navigate' && pages.includes(pathname) && search === '') {
    event.respondWith(pageOf(request, pathname));
  } else if (self.tilthFiles.includes(pathname)) {
    event.respondWith(caches.match(pathname, { cacheName }).then((kept) => kept ?? fetch(request)));
  }
});

async function keepScreens(): Promise<void> {
  const cache = await caches.open(cacheName);
  await cache.addAll([...self.tilthFiles, ...pages].map((path) => new Request(path, { cache: 'reload' })));
}

async function dropOld(): Promise<void> {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(oursBegin) && name !== cacheName);
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** The service's own page while it answers in time, so that a new version shows at once; else the kept one. */
async function pageOf(request: Request, pathname: string): Promise<Response> {
  const kept = () => caches.match(pathname, { cacheName });
  const late = new Promise<null>((resolve) => setTimeout(() => resolve(null), patienceMs));
  const fetched = fetch(request).catch(() => null);
  const answer = await Promise.race([fetched, late]);
  if (answer !== null && answer.status < 500) return answer;
  return (await kept()) ?? (await fetched) ?? Response.error();
}

export {};
