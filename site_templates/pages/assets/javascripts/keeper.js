/* The service worker: one cache an edition, filled whole before it counts, files that did not change taken from the last
   one. What a page asks for comes from the cache, so that all pages are of one edition. Its lists are put in by the build. */
const CACHE = "mullbook-" + BOOK.digest, NAMES = Object.keys(BOOK.files), LIST = "kept-files.json", AT_ONCE = 24;
const address = (name) => new URL(name, self.registration.scope).href;

async function unchanged(name, older) {
  for (const { cache, files } of older) if (files[name] === BOOK.files[name]) {
    const held = await cache.match(address(name));
    if (held) return held;
  }
  return null;
}
async function last_editions() {
  const names = (await caches.keys()).filter((each) => each.startsWith("mullbook-") && each !== CACHE);
  return Promise.all(names.map(async (each) => {
    const cache = await caches.open(each), list = await cache.match(address(LIST));
    return { cache, files: list ? await list.json() : {} };
  }));
}
async function fill() {
  const cache = await caches.open(CACHE), older = await last_editions();
  async function keep(name) {
    const held = await unchanged(name, older) || await fetch(address(name), { cache: "no-cache" });
    if (!held.ok) throw new Error(name + " could not be fetched");
    await cache.put(address(name), held);
  }
  for (let at = 0; at < NAMES.length; at += AT_ONCE) await Promise.all(NAMES.slice(at, at + AT_ONCE).map(keep));
  await cache.put(address(LIST), new Response(JSON.stringify(BOOK.files)));
}
async function drop_older() {
  const names = (await caches.keys()).filter((each) => each.startsWith("mullbook-") && each !== CACHE);
  await Promise.all(names.map((each) => caches.delete(each)));
  await self.clients.claim();
}
async function answer(request) {
  const asked = new URL(request.url), name = asked.href.endsWith("/") ? asked.origin + asked.pathname + "index.html" : request.url;
  const held = await (await caches.open(CACHE)).match(name, { ignoreSearch: true });
  return held || fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(drop_older()));
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
  if (event.data === "edition") event.ports[0].postMessage({ checked: BOOK.checked, version: BOOK.version });
});
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET" && event.request.url.startsWith(self.registration.scope)) event.respondWith(answer(event.request));
});
