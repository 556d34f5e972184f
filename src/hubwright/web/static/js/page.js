// Comfort on every page: what is wrong gets the focus, so that it is read out and seen first.
const wrong = document.querySelector("[data-focus]");
if (wrong) wrong.focus();

// Wide content that scrolls sideways need not be a stop for the tab key where it does not scroll.
for (const box of document.querySelectorAll(".scroll")) {
  if (box.scrollWidth <= box.clientWidth) box.removeAttribute("tabindex");
}

// Readings of a measuring sheet that still wait in this browser go on from any page.
try {
  if (Object.keys(localStorage).some((name) => name.startsWith("hw-q:"))) import("./sheet-queue.js").then((queue) => queue.flush());
} catch { /* this browser keeps nothing */ }

// On a narrow screen the row of a job's pages scrolls sideways: the page one is on shall stand in sight.
for (const here of document.querySelectorAll(".steps [aria-current]")) {
  const row = here.closest("ul");
  row.scrollLeft += here.getBoundingClientRect().left - row.getBoundingClientRect().left - (row.clientWidth - here.offsetWidth) / 2;
}

// What a person beside the car does not need first is folded away on a phone; on paper everything that was open elsewhere is open.
const folds = [...document.querySelectorAll("details[data-fold-narrow]")];
if (matchMedia("(max-width: 40rem)").matches) {
  for (const fold of folds) fold.open = fold.matches(":target, :has(:target)");
  addEventListener("beforeprint", () => folds.forEach((fold) => { fold.open = true; }));
}
