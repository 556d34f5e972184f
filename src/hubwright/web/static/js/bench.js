// The bench: slider, steps and discs of the shelf set one field; htmx asks for what changes; the address follows.
const form = document.getElementById("setting");
const field = document.getElementById("f-t");
const slider = document.getElementById("slider");
const REST_MS = 300;
let resting = 0;

const clamp = (value) => Math.min(Math.max(value, 0), 150);
const read = () => Number.parseFloat(field.value.replace(",", "."));
const told = () => field.dispatchEvent(new Event("input", { bubbles: true }));
const kinds = () => [...document.querySelectorAll('#kinds input')];

function set(thickness) {
  field.value = String(Math.round(clamp(thickness) * 100) / 100);
  slider.value = field.value;
  told();
}

function address() {
  const query = new URLSearchParams(new FormData(form));
  return `${location.pathname}?${query}`;
}

// One entry of the history for every disc the hand rests on, none for those it slides over.
function remember() {
  clearTimeout(resting);
  resting = setTimeout(() => {
    const now = address();
    if (now !== location.pathname + location.search) history.pushState({ bench: true }, "", now);
    document.dispatchEvent(new CustomEvent("bench:rest"));
  }, REST_MS);
}

function named(name) {
  let hidden = form.querySelector('input[name="name"]');
  if (!hidden && name) {
    hidden = Object.assign(document.createElement("input"), { type: "hidden", name: "name" });
    form.append(hidden);
  }
  if (hidden) hidden.value = name;
}

if (form) {
  slider.addEventListener("input", (event) => {
    event.stopPropagation();
    named("");
    field.value = slider.value;
    told();
  });
  field.addEventListener("input", () => {
    const value = read();
    if (Number.isFinite(value)) slider.value = String(value);
    remember();
  });
  // Without scripts these send the form with a step to add; here they only set the field.
  for (const button of form.querySelectorAll('[name="step"]')) {
    const step = Number(button.value);
    button.type = "button";
    button.removeAttribute("name");
    button.addEventListener("click", () => {
      named("");
      set((Number.isFinite(read()) ? read() : 0) + step);
    });
  }
  document.getElementById("kinds").addEventListener("change", remember);
  document.querySelector(".stock")?.addEventListener("click", (event) => {
    const disc = event.target.closest("a[data-t]");
    if (!disc || event.metaKey || event.ctrlKey || event.shiftKey) return;
    event.preventDefault();
    for (const kind of kinds()) kind.checked = kind.value === disc.dataset.kind;
    named(disc.dataset.name);
    set(Number(disc.dataset.t));
  });
  // A verdict opens its working.
  document.addEventListener("click", (event) => {
    const link = event.target.closest(".question");
    const fold = link && document.getElementById(link.hash.slice(1))?.closest("details");
    if (!fold) return;
    event.preventDefault();
    fold.open = true;
    fold.scrollIntoView({ block: "center" });
    fold.querySelector("summary").focus({ preventScroll: true });
  });
  window.addEventListener("popstate", () => location.reload());

  // The wheel and the mark on the scale move with the picture the server sent, not before it.
  const moved = (t) => {
    for (const picture of document.querySelectorAll(".layers")) {
      const { x, y, t: drawn } = picture.dataset;
      const by = t - Number(drawn);
      picture.querySelector('[data-part="wheel"]')?.setAttribute("transform", `translate(${by * x} ${by * y})`);
    }
    const windows = document.getElementById("windows");
    const { px, most, t: drawn } = windows.dataset;
    const by = (Math.min(t, Number(most)) - Math.min(Number(drawn), Number(most))) * Number(px);
    windows.querySelector('[data-part="present"]')?.setAttribute("transform", `translate(${by} 0)`);
  };

  const current = () => {
    const t = read();
    for (const disc of document.querySelectorAll(".stock a")) {
      const here = Number(disc.dataset.t) === t && kinds().some((kind) => kind.checked && kind.value === disc.dataset.kind);
      if (here) disc.setAttribute("aria-current", "true");
      else disc.removeAttribute("aria-current");
    }
  };

  // What was unfolded stays unfolded while the disc changes.
  let open = new Set();
  const name = (fold) => fold.querySelector("summary").textContent;
  document.addEventListener("htmx:beforeSwap", (event) => {
    const { target, xhr } = event.detail;
    if (xhr.status === 422) Object.assign(event.detail, { shouldSwap: true, isError: false });
    if (target?.id === "beside") open = new Set([...target.querySelectorAll("details[open]")].map(name));
  });
  document.addEventListener("htmx:afterSwap", (event) => {
    const live = document.getElementById("live");
    if (event.detail.target?.id === "live") {
      moved(Number(live.dataset.t));
      current();
      slider.setAttribute("aria-valuetext", document.getElementById("says").textContent.trim());
    }
    if (event.detail.target?.id === "beside") {
      for (const fold of document.querySelectorAll("#beside details")) fold.open = open.has(name(fold));
    }
  });
}
