// The measuring sheet without the server: the page carries every reading of the axle, so that one goes on while the line is down.
import * as queue from "./sheet-queue.js";

const root = document.getElementById("sheet");
const words = JSON.parse(root.dataset.words);
let sheet = JSON.parse(root.dataset.sheet);
const one = (name) => root.querySelector(`[data-${name}]`);
const form = one("take");
const pad = one("pad");
const say = (text, values) => text.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
const gloved = matchMedia("(pointer: coarse)").matches;
let current = null;
let box = null; // the box the keys write into
let refreshing = 0;
const skipped = new Set(); // passed over by hand: offered again once all others are done

// ---- numbers, as the server reads them
const NUMBER = /^([+\-−–])?\s*(?:(\d+) +)?(?:(\d+)\s*\/\s*(\d+)|(\d*[.,]?\d+|\d+[.,]))$/;
function numberOf(text) {
  const found = NUMBER.exec(text.trim());
  if (!found) return null;
  const [, sign, whole, top, under, plain] = found;
  if (under ? Number(under) === 0 : whole) return null;
  const size = under ? Number(whole ?? 0) + Number(top) / Number(under) : Number(plain.replace(",", "."));
  return sign && sign !== "+" ? -size : size;
}
const figures = (texts) => texts.map(numberOf).filter((figure) => figure !== null);
const mean = (list) => list.reduce((sum, figure) => sum + figure, 0) / list.length;
const text = (figure) => String(Math.round(figure * 1000) / 1000).replace(".", document.documentElement.lang === "de" ? "," : ".");

// ---- slots
const slotOf = (id) => sheet.slots.find((slot) => slot.id === id);
const title = (slot) => (slot.where ? `${slot.label}, ${slot.where}` : slot.label);

// One taken on the way up stands for itself; the blank one stays for the next.
function ownSlot(slot, extras) {
  if (!slot.many) return slot;
  const id = `${slot.id}#${extras.map((extra) => extra.text).join(" ")}`;
  let own = slotOf(id);
  if (!own) {
    const figures_ = extras.filter((extra) => extra.needed).map((extra) => `${extra.text} ${extra.unit}`).join(" ");
    own = { ...slot, id, post: slot.id, many: false, another: false, values: [], where: `${slot.where}: ${figures_}`, extras: extras.map((extra) => ({ ...extra, fixed: extra.needed })) };
    sheet.slots.splice(sheet.slots.indexOf(slot), 0, own);
    Object.assign(slot, { another: true, needed: false, worth: 0 });
  }
  return own;
}

// What waits in this browser, or was confirmed after the page was made, is laid over what the page says.
function overlay() {
  const known = queue.stored(sheet.address).filter((kept) => kept.revision > sheet.base);
  const mine = queue.waiting().filter((item) => item.address === sheet.address);
  for (const slot of sheet.slots) slot.waits = false;
  for (const kept of [...known, ...mine]) {
    const at = slotOf(kept.local) ?? (slotOf(kept.post) && ownSlot(slotOf(kept.post), kept.extras));
    if (!at) continue;
    at.values = kept.values;
    at.waits = mine.includes(kept);
    if (kept.extras && !at.post) for (const extra of at.extras) extra.text = kept.extras.find((its) => its.name === extra.name)?.text ?? extra.text;
  }
}

function nextOf(slot) {
  const at = sheet.slots.findIndex((it) => it.id === slot.id) + 1;
  const open = [...sheet.slots.slice(at), ...sheet.slots.slice(0, at)].filter((it) => !it.values.length && !it.another && it.id !== slot.id);
  const fresh = open.filter((it) => !skipped.has(it.id));
  if (!fresh.length) skipped.clear();
  const walk = fresh.length ? fresh : open;
  return walk.find((it) => it.needed) ?? walk.find((it) => it.worth > 0) ?? walk[0] ?? slot;
}

// ---- drawing the page
function element(tag, fields = {}, ...inside) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(fields)) {
    if (name in made && name !== "list") made[name] = value; else made.setAttribute(name, value);
  }
  made.append(...inside);
  return made;
}

function show(slot, { focus = true } = {}) {
  current = slot;
  one("group").textContent = slot.group;
  one("label").replaceChildren(slot.label, ...(slot.where ? [" ", element("span", { className: "where" }, slot.where)] : []));
  one("hint").textContent = slot.hint;
  sketch(slot);
  boxes(slot);
  one("ask").textContent = "";
  const at = sheet.slots.indexOf(slot), all = sheet.slots.length;
  one("before").href = address(sheet.slots[(at - 1 + all) % all]);
  one("after").href = address(nextOf(slot));
  one("again").hidden = !slot.repeats;
  one("out").disabled = !slot.values.length;
  for (const unit of form.querySelectorAll(".sure .unit")) unit.textContent = slot.unit;
  form.elements.method.value = slot.method;
  form.elements.u.value = slot.u;
  pad.hidden = slot.kind !== "number";
  history.replaceState(null, "", address(slot));
  list();
  if (focus) (form.querySelector("input:not([type=hidden]):not([readonly])") ?? one("label")).focus({ preventScroll: gloved });
}

// What the addresses and readings of this round say besides: the disc fitted, the car turned round.
function round() {
  return { ...(sheet.disc ? { disc: sheet.disc } : {}), ...(sheet.turned ? { turned: "yes" } : {}) };
}

function address(slot) {
  const asked = new URLSearchParams({ step: slot.post ?? slot.id, ...round() });
  return `${sheet.address}?${asked}`;
}

function sketch(slot) {
  const shown = one("figure").firstElementChild;
  if (!slot.sketch || shown?.dataset.sketch === slot.sketch) return;
  const wanted = root.querySelector(`[data-sketches] > [data-sketch="${slot.sketch}"]`);
  if (!wanted) return;
  if (shown) one("sketches").append(shown);
  one("figure").replaceChildren(wanted);
}

function boxes(slot) {
  const made = slot.extras.map((extra) => element("div", { className: "box extra" },
    element("label", { htmlFor: `x-${extra.name}` }, `${extra.label} `, element("span", { className: "unit" }, extra.unit)),
    element("input", { id: `x-${extra.name}`, name: extra.name, value: extra.text, autocomplete: "off", readOnly: extra.fixed, inputMode: gloved ? "none" : "decimal" })));
  if (slot.choices.length) {
    made.push(element("fieldset", { className: "choices" }, element("legend", {}, slot.label), ...slot.choices.map(([code, said]) =>
      element("label", { className: "choice" }, element("input", { type: "radio", name: "value", value: code, checked: slot.values.includes(code) }), " ", element("span", {}, said)))));
  } else {
    const label = slot.kind === "number" ? [`${root.dataset.reading} `, element("span", { className: "unit" }, slot.unit)] : [slot.label];
    const plain = slot.repeats ? "" : slot.values[0] ?? "";
    made.push(element("div", { className: "box" }, element("label", { htmlFor: "value" }, ...label),
      element("input", { id: "value", name: "value", className: "value", value: plain, autocomplete: "off", "aria-describedby": "slot-title slot-hint", ...(slot.kind === "number" ? { inputMode: gloved ? "none" : "decimal" } : {}) })));
  }
  if (slot.repeats && slot.values.length) {
    const boxes_ = slot.values.map((value) => element("label", {}, element("input", { type: "checkbox", name: "value", value, checked: true }), ` ${value}`));
    made.push(element("fieldset", { className: "repeats" }, element("legend", {}, root.dataset.repeats), ...boxes_, spread(slot.values)));
  }
  one("boxes").replaceChildren(...made);
  box = form.querySelector("#value");
}

function spread(values) {
  const list_ = figures(values);
  if (list_.length < 2) return "";
  return element("p", { className: "spread" }, say(words.mean, { mean: text(mean(list_)), spread: text(Math.max(...list_) - Math.min(...list_)) }));
}

function mark(slot) {
  const said = slot.waits ? words.waits : slot.values.length ? words.taken : slot.needed ? words.wanted : words.open;
  const path = slot.waits ? "M-5-5.5H5L-5 5.5H5Z" : slot.values.length ? "M-5 0L-1.5 4L5.5 -4.5" : slot.needed ? "M5.5 0A5.5 5.5 0 1 1 5.5-.1M0-2.5V1M0 3.2v.1" : "M5.5 0A5.5 5.5 0 1 1 5.5-.1";
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  const line = document.createElementNS("http://www.w3.org/2000/svg", "path");
  line.setAttribute("d", path);
  for (const [name, value] of [["class", "mark"], ["viewBox", "-8 -8 16 16"], ["width", 18], ["height", 18], ["aria-hidden", "true"]]) svg.setAttribute(name, value);
  svg.append(line);
  return [svg, element("span", { className: "hidden" }, `${said}: `)];
}

function list() {
  const open = new Set([...one("list").querySelectorAll("details[open]")].map((fold) => fold.dataset.group ?? fold.querySelector("summary").firstChild.textContent.trim()));
  const groups = Map.groupBy ? Map.groupBy(sheet.slots, (slot) => slot.group) : grouped(sheet.slots);
  one("list").replaceChildren(...[...groups].map(([name, slots]) => {
    const taken = slots.filter((slot) => slot.values.length).length;
    const lines = slots.map((slot) => {
      const link = element("a", { href: address(slot), className: slot.waits ? "waits" : slot.values.length ? "taken" : slot.needed ? "wanted" : "open" },
        ...mark(slot), element("span", {}, title(slot)), " ", element("b", {}, slot.choices.length ? slot.values.map((code) => slot.choices.find(([its]) => its === code)?.[1] ?? code).join() : `${slot.values.join("; ")} ${slot.values.length ? slot.unit : ""}`));
      link.dataset.step = slot.id;
      if (slot.id === current?.id) link.setAttribute("aria-current", "step");
      return element("li", {}, link);
    });
    const fold = element("details", { open: name === current?.group || open.has(name) }, element("summary", {}, `${name} `, element("span", { className: "soft" }, `${taken}/${slots.length}`)), element("ul", {}, ...lines));
    fold.dataset.group = name;
    return fold;
  }));
  const all = sheet.slots.filter((slot) => slot.values.length || !slot.another), needed = all.filter((slot) => slot.needed && !slot.values.length).length;
  one("progress").textContent = say(words.progress, { taken: all.filter((slot) => slot.values.length).length, all: all.length });
  one("needed").textContent = needed ? say(words.needed, { count: needed }) : "";
  const open_ = sheet.lines.map((line) => ({ ...line, slot: line.slots.map(slotOf).find((slot) => slot && !slot.values.length && !slot.another) })).filter((line) => line.slot).slice(0, 4);
  one("worth").replaceChildren(...open_.map((line) => {
    const link = element("a", { href: address(line.slot), title: line.worth }, line.what);
    link.dataset.step = line.slot.id;
    return element("li", {}, link, " ", element("span", { className: "mm" }, line.length));
  }), ...(open_.length ? [] : [element("li", {}, words.complete)]));
}

function grouped(slots) {
  const found = new Map();
  for (const slot of slots) found.set(slot.group, [...(found.get(slot.group) ?? []), slot]);
  return found;
}

function line() {
  const { state, waiting, keeps } = queue.status();
  const count = waiting === 1 ? words.one : say(words.many, { count: waiting });
  const said = !waiting ? words.saved : state === "stopped" ? `${count}. ${words.stopped}` : state === "down" ? `${count}; ${words.down}` : count;
  const whole = keeps ? said : `${said}. ${words.nostore}`;
  if (one("line-words").textContent !== whole) one("line-words").textContent = whole;
  one("line").classList.toggle("waits", waiting > 0);
  one("line").querySelector("path").setAttribute("d", waiting ? "M-5-5.5H5L-5 5.5H5Z" : "M-5 0L-1.5 4L5.5 -4.5");
  const left = queue.refused();
  one("refused").hidden = !left.length;
  one("refused").replaceChildren(...left.map((item) => element("li", {},
    element("b", {}, `${item.title} ${item.values.join("; ")}`), ` ${words.refused}: ${item.words} `,
    element("a", { href: `${item.address}?${new URLSearchParams({ step: item.post })}`, className: "button small" }, words.look), " ",
    element("button", { type: "button", className: "small", onclick: () => queue.drop(item) }, words.drop))));
}

function tell(...lines) { one("told").replaceChildren(...lines.filter(Boolean).map((said) => element("p", {}, said))); }

// ---- keeping a reading
form.addEventListener("submit", (event) => {
  event.preventDefault();
  const out = event.submitter?.hasAttribute("data-out") ?? false;
  const again = event.submitter?.value === "again";
  const made = out ? { values: [], fields: [["take_out", "yes"]] } : typed();
  if (!made) return;
  const extras = current.extras.map((extra) => ({ ...extra, text: form.elements[extra.name]?.value.trim() ?? "" }));
  const missing = extras.find((extra) => extra.needed && numberOf(extra.text) === null);
  if (missing && !out) return ask(say(words.extra, { label: missing.label }), form.elements[missing.name]);
  const slot = ownSlot(current, extras);
  const fields = [["slot", current.post ?? current.id], ["system", sheet.system], ["method", form.elements.method.value], ["u", form.elements.u.value.trim()],
    ...extras.map((extra) => [extra.name, extra.text]), ...Object.entries(current.place), ...made.fields];
  for (const [name, value] of Object.entries(round())) fields.push([name, String(value)]);
  slot.values = made.values;
  [slot.method, slot.u] = [form.elements.method.value, form.elements.u.value.trim()];
  if (!slot.post && !current.many) slot.extras = extras;
  const doubt = out ? "" : odd(slot);
  queue.put({ address: sheet.address, local: slot.id, post: current.post ?? current.id, title: title(slot), values: slot.values, extras, fields, base: sheet.base, key: queue.key() });
  overlay();
  navigator.vibrate?.(20);
  tell(say(words.queued, { what: `${title(slot)} ${slot.values.at(-1) ?? "–"}` }));
  show(again || doubt || out ? slot : nextOf(slot));
  if (doubt) ask(doubt);
});

function typed() {
  if (current.choices.length) {
    const chosen = form.querySelector("input[name=value]:checked")?.value;
    if (!chosen) return ask(words.nothing);
    return { values: [chosen], fields: [["value", chosen]] };
  }
  const fresh = form.querySelector("#value").value.trim();
  const kept = [...form.querySelectorAll("input[type=checkbox][name=value]:checked")].map((tick) => tick.value);
  const values = current.repeats ? [...kept, ...(fresh ? [fresh] : [])] : fresh ? [fresh] : [];
  if (!values.length) return ask(words.nothing);
  if (current.kind === "number" && fresh) {
    const figure = numberOf(fresh);
    if (figure === null) return ask(words.nonumber);
    if ((current.low !== "" && figure < Number(current.low)) || (current.high !== "" && figure > Number(current.high))) return ask(say(words.outside, { limits: current.limits }));
  }
  return { values, fields: values.map((value) => ["value", value]) };
}

// A question never keeps a reading from being kept.
function odd(slot) {
  const mine = figures(slot.values);
  const other = figures(slotOf(slot.other)?.values ?? []);
  if (mine.length && other.length && slot.apart && Math.abs(mean(mine) - mean(other)) > numberOf(slot.apart)) {
    return say(words.apart, { this: `${text(mean(mine))} ${slot.unit}`, other: `${text(mean(other))} ${slot.unit}` });
  }
  const wide = mine.length > 1 ? Math.max(...mine) - Math.min(...mine) : 0;
  return slot.unit === "mm" && wide > 3 || slot.unit === "in" && wide > 0.12 ? say(words.wide, { spread: `${text(wide)} ${slot.unit}` }) : "";
}

function ask(said, at = form.querySelector("#value")) {
  one("ask").textContent = said;
  at?.focus();
  return null;
}

// ---- keys, links, news from the server
form.addEventListener("focusin", (event) => { if (event.target.matches("input:not([type=radio]):not([type=checkbox])")) box = event.target; });
pad.addEventListener("pointerdown", (event) => { if (event.target.closest("button")) event.preventDefault(); }); // the box keeps the focus
pad.addEventListener("click", (event) => {
  const pressed = event.target.closest("button")?.dataset.key;
  if (!pressed || !box || box.readOnly) return;
  const value = box.value;
  if (pressed === "back") box.value = value.slice(0, -1);
  else if (pressed === "sign") box.value = /^[−-]/.test(value) ? value.slice(1) : `-${value}`;
  else if (pressed === "next") {
    const all = [...one("boxes").querySelectorAll("input:not([type=checkbox]):not([readonly])")];
    all[(all.indexOf(box) + 1) % all.length]?.focus();
  } else box.value = value + ({ slash: "/", space: " ", mark: document.documentElement.lang === "de" ? "," : "." }[pressed] ?? pressed);
});

root.addEventListener("click", (event) => {
  if (event.ctrlKey || event.metaKey || event.shiftKey) return;
  const link = event.target.closest("a");
  const at = sheet.slots.indexOf(current), all = sheet.slots.length;
  const wanted = link?.dataset.step ? slotOf(link.dataset.step)
    : link?.hasAttribute("data-before") ? sheet.slots[(at - 1 + all) % all]
      : link?.hasAttribute("data-after") ? nextOf(current) : null;
  if (!wanted) return;
  event.preventDefault();
  if (link.hasAttribute("data-after")) skipped.add(current.id);
  show(wanted);
  form.scrollIntoView({ block: "nearest" });
});

queue.listen((receipt) => {
  if (receipt?.item.address === sheet.address && receipt.kind === "stored") {
    const { item, receipt: done } = receipt;
    const what = `${item.title} ${item.values.at(-1) ?? "–"}`;
    tell(done.aside ? done.aside.words : say(words.kept, { what, number: done.revision }), ...done.questions.map((question) => `${question.text} ${question.todo}`));
  }
  overlay();
  line();
  if (current) list();
  if (receipt?.kind === "stored" && !queue.waiting().length) refresh();
});

async function refresh() {
  const mine = ++refreshing;
  try {
    const answer = await fetch(`${sheet.address}/now?${new URLSearchParams(round())}`, { headers: { accept: "application/json" } });
    if (!answer.ok || mine !== refreshing || queue.waiting().length) return;
    sheet = await answer.json();
  } catch { return; }
  queue.forget(sheet.address, sheet.base);
  overlay();
  const before = current;
  current = slotOf(before.id) ?? before;
  const untouched = !form.querySelector("#value")?.value && !current.extras.some((extra) => form.elements[extra.name]?.value !== extra.text);
  if (untouched && (current !== before) && JSON.stringify(current.values) !== JSON.stringify(before.values)) boxes(current);
  list();
}

queue.forget(sheet.address, sheet.base);
overlay();
const asked = new URLSearchParams(location.search).get("step");
const wrong = form.querySelector("[aria-invalid]");
const drawn = form.elements.slot.value; // the reading the server drew; what was typed into it before this script came stays
const TYPED = "input:not([type=hidden]):not([type=radio]):not([type=checkbox])";
const early = [...form.querySelectorAll(TYPED)]
  .filter((field) => field.value !== field.defaultValue).map((field) => [field.name, field.value]);
if (!wrong) {
  show(slotOf(asked) ?? slotOf(drawn) ?? sheet.slots[0], { focus: false });
  for (const [name, value] of current.id === drawn ? early : []) {
    const field = form.querySelector(`${TYPED}[name="${CSS.escape(name)}"]`);
    if (field) field.value = value;
  }
} else { current = slotOf(form.elements.slot.value); pad.hidden = current.kind !== "number"; box = form.querySelector("#value"); }
line();
queue.flush();
shelve().catch(() => {}); // without it a reload needs the line

// The page and its files on the worker's shelf, already on the first visit. Browsers allow it on loopback and by https.
async function shelve() {
  if (!navigator.serviceWorker) return;
  await navigator.serviceWorker.register("/sheet-worker.js");
  await navigator.serviceWorker.ready;
  const shelf = await caches.open("hw-sheets-1");
  const files = performance.getEntriesByType("resource").map((entry) => entry.name).filter((name) => new URL(name).pathname.startsWith("/static/"));
  for (const name of new Set(files)) if (!await shelf.match(name)) await shelf.add(name);
  if (!await shelf.match(location.pathname)) await shelf.add(location.pathname);
}
