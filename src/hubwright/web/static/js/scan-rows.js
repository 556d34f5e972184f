// The rows of places in the form of a scan: one more where all are full, and what was picked but not kept yet, which stays in
// this tab until it is: a reload or a telephone call in between costs no picks.
const LETTERS = { plane: "H", circle: "R", cut: "X" };
const LEFT_ALONE = new Set(["form_token", "key", "base", "sure", "do"]);

// One more row of a list; its box.
export function addRow(form, name) {
  const rows = form.querySelectorAll(name === "cut" ? ".ball" : `[data-row="${name}"]`), number = rows.length + 1;
  const row = rows[rows.length - 1].cloneNode(true);
  for (const part of row.querySelectorAll(".why")) part.remove();
  for (const part of [row, ...row.querySelectorAll("*")]) {
    for (const key of ["id", "for"]) if (part.hasAttribute(key)) part.setAttribute(key, part.getAttribute(key).replace(/\[\d+\]/, `[${number}]`));
    part.removeAttribute("aria-describedby");
    part.removeAttribute("aria-invalid");
    if (part.tagName === "INPUT") part.value = "";
  }
  row.querySelector(".mark").textContent = LETTERS[name] + number;
  rows[rows.length - 1].after(row);
  return row.querySelector(`input[name="${name}"]`);
}

function nameOf(form) { return `hw-scan:${form.getAttribute("action")}:${form.dataset.version}`; }

function filled(form) {
  return [...form.querySelectorAll("input[data-place]")].some((box) => box.value.trim());
}

// From now on every change is remembered in this tab; once the form is sent to be kept it is forgotten.
export function keepDraft(form) {
  const keep = () => {
    const fields = [...new FormData(form)].filter(([name]) => !LEFT_ALONE.has(name));
    try { sessionStorage.setItem(nameOf(form), JSON.stringify(fields)); } catch { /* this browser keeps nothing */ }
  };
  form.addEventListener("picked", keep);
  form.addEventListener("change", keep);
  form.addEventListener("submit", (event) => {
    if (event.submitter?.value !== "look") sessionStorage.removeItem(nameOf(form));
  });
}

// What was picked before, into a form in which nothing is yet; whether there was anything.
export function bringBack(form) {
  let fields;
  try { fields = JSON.parse(sessionStorage.getItem(nameOf(form)) ?? "null"); } catch { return false; }
  if (!fields || filled(form)) return false;
  const seen = {};
  for (const [name, value] of fields) {
    const boxes = form.querySelectorAll(`[name="${CSS.escape(name)}"]`), number = seen[name] ?? 0;
    seen[name] = number + 1;
    if (boxes[0]?.type === "radio") {
      for (const box of boxes) box.checked = box.value === value;
    } else if (number < boxes.length) {
      boxes[number].value = value;
    } else if (name in LETTERS && value) {
      addRow(form, name).value = value;
    }
  }
  return filled(form);
}
