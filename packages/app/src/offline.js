// The service worker: the app's own files while the store of this machine is not running. It never answers for the store.
const CACHE = 'VERSION';
const FILES = [/* FILES */];

async function fetchAll() {
  const cache = await caches.open(CACHE);
  await cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })));
  await skipWaiting();
}

async function forgetOld() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith('app-') && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

addEventListener('install', (event) => event.waitUntil(fetchAll()));
addEventListener('activate', (event) => event.waitUntil(forgetOld()));

addEventListener('fetch', (event) => {
  const { method, url, mode } = event.request;
  const { origin, pathname } = new URL(url);
  if (method !== 'GET' || origin !== location.origin || pathname.startsWith('/api/')) return;
  if (mode === 'navigate') event.respondWith(pageFirst(event.request));
  else if (pathname.startsWith('/assets/')) event.respondWith(keptFirst(event.request));
});

// The page is asked for anew whenever the server is there: an update is seen at once.
async function pageFirst(request) {
  try {
    return await fetch(request);
  } catch (error) {
    const kept = await caches.match('/');
    if (kept === undefined) throw error;
    return kept;
  }
}

// Names in assets hold a print of their contents, so a kept one is the right one.
async function keptFirst(request) {
  return (await caches.match(request, { ignoreSearch: true })) ?? fetch(request);
}
