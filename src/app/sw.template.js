// Keeps every built file on the device, so that the app opens without a network.
// The build writes the version (a hash of the files) and the list of files into this text.
// An open tab keeps the version it started with: a new worker waits until a page tells it to change over.

const version = 'VERSION';
const files = ['FILES'];
// The tool as one file, to be handed on. It is as large as all the others together, so it is fetched when a page that
// has settled asks for it, or when it is wanted, and kept from then on.
const later = ['ellwand.html'];
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
  if (event.data === 'keep the rest') event.waitUntil(keepRest());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});

const at = (path) => new URL(path, self.registration.scope);
const fresh = (path) => new Request(at(path), { cache: 'reload' });

async function keepAll() {
  const cache = await caches.open(cacheName);
  await cache.addAll(['./', ...files.filter((file) => file !== 'index.html')].map(fresh));
}

async function keepRest() {
  const cache = await caches.open(cacheName);
  const isKept = await Promise.all(later.map((path) => cache.match(at(path), loosely)));
  const missing = later.filter((_, i) => !isKept[i]);
  await cache.addAll(missing.map(fresh)).catch(() => undefined); // No network just now: the next page asks again.
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
  if (later.some((path) => at(path).pathname === new URL(request.url).pathname)) {
    await keepRest();
    return (await cache.match(request, loosely)) ?? fetch(request);
  }
  if (request.mode === 'navigate') {
    const start = await cache.match(at('./'), loosely);
    if (start) return start;
  }
  return fetch(request);
}
