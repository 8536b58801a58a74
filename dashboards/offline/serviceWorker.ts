/// <reference lib="webworker" />
/**
 * Shows what web push brings, and keeps the screens' own files so that they open without the service. Answers of the API never pass through here: what is
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

self.addEventListener('push', (event) => {
  event.waitUntil(show(event.data?.text() ?? ''));
});

/** The push service ended or moved this browser's subscription: without a new one it would stay silent unnoticed. */
self.addEventListener('pushsubscriptionchange', (event) => {
  const { oldSubscription, newSubscription } = event as PushSubscriptionChange;
  (event as ExtendableEvent).waitUntil(subscribeAgain(oldSubscription ?? null, newSubscription ?? null));
});

self.addEventListener('notificationclick', (event) => {
  event.notification.close();
  event.waitUntil(openAt(String(event.notification.data ?? '/')));
});

/** As the Push API says; browsers leave either out. */
interface PushSubscriptionChange extends Event {
  readonly oldSubscription?: PushSubscription | null;
  readonly newSubscription?: PushSubscription | null;
}

async function subscribeAgain(old: PushSubscription | null, made: PushSubscription | null): Promise<void> {
  const key = old?.options.applicationServerKey ?? (await fetchPushKey());
  if (key === null) return;
  const options = { userVisibleOnly: true, applicationServerKey: key };
  const { endpoint, keys } = (made ?? (await self.registration.pushManager.subscribe(options))).toJSON();
  const body = { subscription: { endpoint, keys }, ...(old === null ? {} : { replaces: old.endpoint }) };
  await fetch('/api/push', {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'x-tilth-request': '1' },
    body: JSON.stringify(body),
  });
}

/** Null when nobody is signed in here: then the service could not tell whose browser it is. */
async function fetchPushKey(): Promise<string | null> {
  const answer = await fetch('/api/push');
  return answer.ok ? ((await answer.json()) as { publicKey: string | null }).publicKey : null;
}

/** Titles by urgency. Here and not with the other words: a worker of this kind cannot share a file with the screens. */
const titles: Readonly<Record<string, string>> = {
  highest: 'Act now',
  high: 'Act today',
  medium: 'Look soon',
};

/** Browsers take the permission away from who gets a push and shows nothing, so something is shown whatever came. */
async function show(payload: string): Promise<void> {
  const { text = payload, alarmId = null, pileId = null, priority = 'low' } = readPush(payload);
  await self.registration.showNotification(titles[priority] ?? 'Tilthwatch', {
    body: text,
    icon: '/icon-192.png',
    data: pileId === null ? '/' : `/#/piles/${encodeURIComponent(pileId)}`,
    // What is said of an alarm later takes the place of what was said before.
    ...(alarmId === null ? {} : { tag: alarmId }),
    requireInteraction: priority === 'highest' || priority === 'high',
  });
}

interface PushedText {
  readonly text?: string;
  readonly alarmId?: string | null;
  readonly pileId?: string | null;
  readonly priority?: string;
}

/** As `services/notify/webPush/pushPayload.ts` writes it; anything else is shown as it is. */
function readPush(payload: string): PushedText {
  try {
    return JSON.parse(payload) as PushedText;
  } catch {
    return {};
  }
}

async function openAt(path: string): Promise<void> {
  const windows = await self.clients.matchAll({ type: 'window' });
  const app = windows.find(({ url }) => new URL(url).pathname === '/');
  if (app === undefined) {
    await self.clients.openWindow(path);
    return;
  }
  await app.navigate(path).catch(() => null);
  await app.focus();
}

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
