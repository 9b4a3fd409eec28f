// Keeps every built file on the device, so that the app opens without a network.
// The build writes the version (a hash of the files) and the list of files into this text.
// An open tab keeps the version it started with: a new worker waits until a page tells it to change over.

const version = 'VERSION';
const files = ['FILES'];
// Several copies may live under one origin, each in its own folder: the folder is part of the name.
const family = `ellwand ${self.registration.scope} `;
const cacheName = family + version;
// Servers that send "Vary: Origin" would otherwise hide module scripts from `match`.
const loosely = { ignoreVary: true, ignoreSearch: true };

self.addEventListener('install', (event) => {
  event.waitUntil(keepAll());
});

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOld().then(() => self.clients.claim()));
});

self.addEventListener('message', (event) => {
  if (event.data === 'change over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});

async function keepAll() {
  const cache = await caches.open(cacheName);
  const fresh = (path) => new Request(new URL(path, self.registration.scope), { cache: 'reload' });
  await cache.addAll(['./', ...files.filter((file) => file !== 'index.html')].map(fresh));
}

async function dropOld() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(family) && name !== cacheName);
  await Promise.all(old.map((name) => caches.delete(name)));
}

async function answer(request) {
  const cache = await caches.open(cacheName);
  const kept = await cache.match(request, loosely);
  if (kept) return kept;
  if (request.mode === 'navigate') {
    const start = await cache.match(new URL('./', self.registration.scope), loosely);
    if (start) return start;
  }
  return fetch(request);
}
