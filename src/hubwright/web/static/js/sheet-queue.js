// Readings on their way to the server. Each has a key of its own and waits in this browser until the server has confirmed that
// the disk has it; they are sent one after the other, in the order they were made. Sent twice, a reading arrives once.

const WAITS = "hw-q:", REFUSED = "hw-r:", STORED = "hw-c:";
const PATIENCE_MS = 15000, LONGEST_PAUSE_MS = 15000;
const memory = new Map(); // where the browser keeps nothing
let keeps = true;
let state = "saved";
let pause = 0, timer = 0, busy = false;
const listeners = [];

const store = {
  get: (name) => memory.get(name) ?? (keeps ? localStorage.getItem(name) : null),
  set(name, text) {
    try { localStorage.setItem(name, text); memory.delete(name); } catch { keeps = false; memory.set(name, text); }
  },
  remove(name) { memory.delete(name); try { localStorage.removeItem(name); } catch { /* nothing is kept there */ } },
  names(start) {
    let kept = [];
    try { kept = Object.keys(localStorage); } catch { keeps = false; }
    return [...new Set([...kept, ...memory.keys()])].filter((name) => name.startsWith(start)).sort();
  },
};

function all(start) {
  return store.names(start).flatMap((name) => {
    try { return [{ ...JSON.parse(store.get(name)), name }]; } catch { return []; }
  });
}

export const waiting = () => all(WAITS);
export const refused = () => all(REFUSED);
export const stored = (address) => all(`${STORED}${address} `);
export const drop = (item) => { store.remove(item.name); tell(); };
export const status = () => ({ state, waiting: waiting().length, keeps });
export const listen = (heard) => listeners.push(heard);

function tell(receipt) { for (const heard of listeners) heard(receipt); }

// A reading joins the end of the queue: later than everything before it, even if the clock was set back.
export function put(item) {
  const last = Number(store.names(WAITS).at(-1)?.slice(WAITS.length, WAITS.length + 16) ?? 0);
  const moment = String(Math.max(Date.now() * 100, last + 1)).padStart(16, "0");
  store.set(`${WAITS}${moment}-${key().slice(0, 6)}`, JSON.stringify(item));
  tell();
  flush();
}

export function key() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

export async function flush() {
  if (busy) return;
  busy = true;
  clearTimeout(timer);
  try {
    if (navigator.locks) await navigator.locks.request("hw-queue", sendAll);
    else await sendAll();
  } finally {
    busy = false;
  }
  if (waiting().length && state !== "stopped") {
    pause = Math.min(LONGEST_PAUSE_MS, pause ? pause * 2 : 1000);
    timer = setTimeout(flush, pause);
  }
  tell();
}

async function sendAll() {
  for (let item = waiting()[0]; item; item = waiting()[0]) {
    const answer = await send(item);
    if (answer.kind === "again") { state = "down"; return; }
    if (answer.kind === "stopped") { state = "stopped"; return; }
    pause = 0;
    if (answer.kind === "refused") {
      store.set(item.name.replace(WAITS, REFUSED), JSON.stringify({ ...item, name: undefined, words: answer.words }));
      store.remove(item.name);
      tell({ item, ...answer });
    } else {
      settle(item, answer.receipt);
    }
  }
  state = "saved";
}

// Confirmed. Readings of the same thing that wait behind it were made knowing it: they are held against this revision from now on.
function settle(item, receipt) {
  if (!receipt.aside) {
    for (const later of waiting()) {
      if (later.name !== item.name && later.address === item.address && later.local === item.local) {
        store.set(later.name, JSON.stringify({ ...later, name: undefined, base: receipt.revision }));
      }
    }
    const kept = { address: item.address, local: item.local, post: item.post, values: item.values, extras: item.extras, revision: receipt.revision };
    store.set(`${STORED}${item.address} ${item.local}`, JSON.stringify(kept));
  }
  store.remove(item.name);
  tell({ item, kind: "stored", receipt });
}

// What the server shows by itself need not be remembered here.
export function forget(address, base) {
  for (const kept of stored(address)) if (kept.revision <= base) store.remove(kept.name);
}

async function send(item, second = false) {
  const body = new URLSearchParams(item.fields);
  body.set("base", item.base);
  body.set("key", item.key);
  let answer;
  try {
    answer = await fetch(item.address, {
      method: "POST", body, redirect: "manual", signal: AbortSignal.timeout(PATIENCE_MS),
      headers: { accept: "application/json", "x-form-token": token() },
    });
    if (answer.ok) return { kind: "stored", receipt: await answer.json() };
    if (answer.type === "opaqueredirect" || answer.status === 401 || answer.status === 403) {
      return !second && await renewed(item.address) ? send(item, true) : { kind: "stopped" };
    }
    if ([400, 404, 409, 413, 422].includes(answer.status)) return { kind: "refused", words: await why(answer) };
  } catch { /* no line, or an answer broken off: the same reading is sent again with the same key */ }
  return { kind: "again" };
}

async function why(answer) {
  try {
    const told = await answer.json();
    return told.faults?.map((fault) => fault.words ?? `${fault.field}: ${fault.wanted}`).join(" ") || told.detail || "";
  } catch { return String(answer.status); }
}

function token() {
  try { return JSON.parse(document.body.getAttribute("hx-headers"))["x-form-token"]; } catch { return ""; }
}

// The page may be older than the browser's session: a fresh one brings a fresh token, unless one must sign in first.
async function renewed(address) {
  const answer = await fetch(address, { redirect: "manual", headers: { accept: "text/html" }, cache: "no-store" });
  if (!answer.ok) return false;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").body.getAttribute("hx-headers");
  if (!fresh || fresh === document.body.getAttribute("hx-headers")) return false;
  document.body.setAttribute("hx-headers", fresh);
  return true;
}

addEventListener("online", () => { pause = 0; flush(); });
addEventListener("storage", (event) => { if (event.key?.startsWith("hw-")) tell(); });
addEventListener("visibilitychange", () => { if (!document.hidden) flush(); });
