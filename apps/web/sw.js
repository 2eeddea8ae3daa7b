// The service worker: keeps the whole app on the phone, so that it opens without signal and at once with a poor one. Data is no matter of
// its own: what the service answers is kept by the app, per person. The build fills in the two constants.
const FILES = [];
const VERSION = '';
const CACHE = `app-${VERSION}`;
/** Not the staff's app: always asked of the service. */
const ELSEWHERE = /^\/(api|client|client-page|calendar|verify|complaints|metrics)([/.]|$)/;

self.addEventListener('install', (event) => {
  const fresh = FILES.map((file) => new Request(file, { cache: 'reload' }));
  event.waitUntil(
    caches
      .open(CACHE)
      .then((cache) => cache.addAll(fresh))
      .then(() => self.skipWaiting()),
  );
});

/** The version before stays one turn longer: a window that is still open asks for its parts. */
const tidy = async () => {
  const old = (await caches.keys()).filter((name) => name.startsWith('app-') && name !== CACHE);
  await Promise.all(old.slice(0, -1).map((name) => caches.delete(name)));
  await self.clients.claim();
};
self.addEventListener('activate', (event) => event.waitUntil(tidy()));

const answer = async (request) => {
  const cache = await caches.open(CACHE);
  const kept = request.mode === 'navigate' ? await cache.match('/') : ((await cache.match(request)) ?? (await caches.match(request)));
  return kept ?? fetch(request);
};

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== self.location.origin || ELSEWHERE.test(url.pathname)) return;
  event.respondWith(answer(event.request));
});
