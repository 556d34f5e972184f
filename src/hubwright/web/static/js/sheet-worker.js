// Shows a measuring sheet again while the line is down or the server is dead: the newest one this browser has seen.
// It answers nothing but sheets and the files they need, and always asks the server first.

const SHELF = "hw-sheets-1";
const SHEET = /^\/(jobs\/[^/]+\/measure\/(front|rear)|m\/[^/]+\/(front|rear))$/;
const PATIENCE_MS = 4000;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { pathname, origin } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin) return;
  if (request.mode === "navigate" && SHEET.test(pathname)) event.respondWith(sheet(request, pathname));
  else if (pathname.startsWith("/static/")) event.respondWith(file(request));
});

async function sheet(request, pathname) {
  const shelf = await caches.open(SHELF);
  const kept = await shelf.match(pathname);
  try {
    // Patience ends only where there is something to show instead.
    const answer = await fetch(request, kept ? { signal: AbortSignal.timeout(PATIENCE_MS) } : {});
    if (answer.ok) await shelf.put(pathname, answer.clone());
    else if (answer.status < 500) await shelf.delete(pathname); // signed out, link revoked, job gone
    return answer;
  } catch {
    return kept ?? Response.error();
  }
}

// The address of most files changes with their bytes: what is on the shelf is right. The others are asked for first.
async function file(request) {
  const shelf = await caches.open(SHELF);
  const lasting = new URL(request.url).searchParams.has("v");
  const kept = await shelf.match(request);
  if (kept && lasting) return kept;
  try {
    const answer = await fetch(request);
    if (answer.ok) await shelf.put(request, answer.clone());
    return answer;
  } catch (error) {
    if (kept) return kept;
    throw error;
  }
}
