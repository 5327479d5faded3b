// Keeps the shell and the pages as they were seen last, to read them without a network.
const version = "fettle-BUILD";
const shell = ["style.css", "base.js", "join.js", "live.js", "queue.js", "photo.js", "sheet.js", "picture.js", "chat.js", "door.js", "view.js", "timers.js", "icon.svg"].map((f) => "/static/" + f);

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(version).then((c) => c.addAll(shell)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(caches.keys()
    .then((all) => Promise.all(all.filter((c) => c !== version && c !== "fettle-pages").map((c) => caches.delete(c))))
    .then(() => self.clients.claim()));
});

// The network first, for what it says is true; what was seen last where there is none.
self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin) return;
  const page = event.request.mode === "navigate" || /^\/(photo|drawing)\//.test(url.pathname);
  if (!page && !url.pathname.startsWith("/static/")) return;
  event.respondWith(fetch(event.request).then((reply) => {
    if (reply.ok && !reply.redirected && url.pathname !== "/") {
      const copy = reply.clone();
      event.waitUntil(caches.open(page ? "fettle-pages" : version).then((c) => c.put(event.request, copy)));
    }
    return reply;
  }).catch(async () => {
    const kept = await caches.match(event.request, { ignoreSearch: url.pathname.startsWith("/static/") });
    if (kept) return kept;
    throw new Error("there is no network, and this was not seen before");
  }));
});
