// Says that something typed is not stored yet, and asks before it is left behind.
const form = document.querySelector("form[data-unsaved]");
const state = form?.querySelector("[data-state]");
let open = false;
form?.addEventListener("input", () => {
  open = true;
  state.textContent = form.dataset.unsaved;
});
form?.addEventListener("submit", () => { open = false; });
addEventListener("beforeunload", (event) => { if (open) event.preventDefault(); });

// A link to a box opens the folds around it.
for (const link of document.querySelectorAll(".faults a[href^='#']")) {
  link.addEventListener("click", () => {
    const box = document.getElementById(link.getAttribute("href").slice(1));
    for (let fold = box?.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  });
}
