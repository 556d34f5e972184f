// A row goes into the queue of the measuring sheet, so that one goes on reading while the line is down. Once all are on the
// disk the page is loaded again: its sketch and its rows are the server's.
import * as queue from "./sheet-queue.js";

const form = document.querySelector("form[data-rows]");
const told = form?.querySelector("[data-told]");
const body = document.querySelector("[data-body]");
const cells = form ? [...form.querySelectorAll(".cells input")] : [];
const name = form?.elements.at.value;
const mine = (item) => item.address === form.getAttribute("action") && item.post === name;
let sent = 0;
let why = ""; // the row that was not taken, until the next one is kept

form?.addEventListener("submit", (event) => {
  if (form.elements.place || !cells.some((cell) => cell.value.trim())) return; // into the middle, or with a fault to be told: as a plain form
  event.preventDefault();
  const values = cells.map((cell) => cell.value.trim());
  const fields = [["what", "row"], ["at", name], ["system", form.elements.system.value], ...cells.map((cell) => [cell.name, cell.value.trim()])];
  sent += 1;
  why = "";
  queue.put({ address: form.getAttribute("action"), local: `${name}#${queue.key()}`, post: name, title: document.getElementById("rows").textContent, values, fields, base: form.elements.base.value, key: queue.key() });
  for (const cell of cells) cell.value = "";
  cells[0].focus();
});

function show() {
  const waiting = queue.waiting().filter(mine);
  for (const row of body?.querySelectorAll(".waits") ?? []) row.remove();
  const count = body?.rows.length ?? 0;
  waiting.forEach((item, at) => {
    const row = body?.insertRow();
    row?.classList.add("waits");
    for (const text of [count + at + 1, ...item.values, "…"]) row?.append(Object.assign(document.createElement("td"), { className: "num", textContent: text }));
  });
  const down = queue.status().state === "down" ? ` ${form.dataset.down}` : "";
  told.textContent = why ? why
    : waiting.length ? `${form.dataset.rows.replace("{count}", waiting.length)}${down}` : "";
}

if (form) {
  queue.listen((receipt) => {
    if (receipt?.kind === "refused" && mine(receipt.item)) {
      receipt.item.values.forEach((text, at) => { if (cells[at] && !cells[at].value) cells[at].value = text; });
      why = `${receipt.item.values.join("; ")} ${form.dataset.refused}: ${receipt.words}`;
      for (const item of queue.refused().filter(mine)) queue.drop(item);
      return;
    }
    show();
    if (receipt?.kind === "stored" && mine(receipt.item) && sent && !queue.waiting().length && !cells.some((cell) => cell.value)) {
      sessionStorage.setItem("hw-row", name); // the next row is typed where this one was
      location.reload();
    }
  });
  show();
  queue.flush();
  if (sessionStorage.getItem("hw-row") === name) cells[0].focus();
  sessionStorage.removeItem("hw-row");
}
