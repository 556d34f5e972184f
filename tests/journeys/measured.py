"""What a ruler finds on a page: type that leaves its drawing, runs into other type or is too small, places too small for a finger, text cut off."""

from __future__ import annotations

from playwright.sync_api import Page

LEAST_TARGET_PX = 43.5
"""44 px as the usual advice for a finger (WCAG 2.2 AA asks for 24), less half a pixel of rounding."""
LEAST_TYPE_PX = {390: 8.5, 320: 6.5}
"""Of letters in drawings, by the width of the window; 9.5 on wider ones."""

MEASURE = r"""([target, type]) => {
  const found = new Set();
  const seen = (e) => { const r = e.getBoundingClientRect(); return r.width > 1 && r.height > 1 && e.checkVisibility({visibilityProperty: true}); };
  const words = (e) => (e.textContent || e.name || '').trim().slice(0, 40);
  const name = (e) => `${e.tagName.toLowerCase()}.${e.getAttribute('class') || ''} "${words(e)}"`;
  for (const e of document.querySelectorAll('body *')) {
    if (e.closest('svg, .hidden') || !seen(e)) continue;
    const style = getComputedStyle(e);
    if (e.tagName !== 'INPUT' && e.clientWidth > 1 && e.scrollWidth > e.clientWidth + 1 && ['hidden', 'clip'].includes(style.overflowX)
        && !e.closest('thead'))
      found.add(`cut off: ${name(e)}`);
    if (e.matches('button, select, summary, textarea, input:not([type=hidden])') || (e.tagName === 'A' && style.display !== 'inline')) {
      const box = (/checkbox|radio/.test(e.type) && e.closest('label') || e).getBoundingClientRect();
      if (box.height < target || box.width < target)
        found.add(`small for a finger, ${Math.round(box.width)} x ${Math.round(box.height)}: ${name(e)}`);
    }
  }
  const text = (from) => [...from.querySelectorAll('text')].filter((t) => words(t) && seen(t));
  const cross = (a, b) => {
    const [p, q] = [a.getBoundingClientRect(), b.getBoundingClientRect()];
    const wide = Math.min(p.right, q.right) - Math.max(p.left, q.left), high = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
    return wide > 2 && high > 0.35 * Math.min(p.height, q.height);
  };
  for (const drawing of document.querySelectorAll('figure.layers, svg[viewBox]:not([aria-hidden=true])')) {
    if (!seen(drawing) || (drawing.tagName === 'svg' && drawing.closest('figure.layers'))) continue;
    const all = text(drawing), title = (drawing.querySelector('title') || drawing).textContent.trim().slice(0, 40);
    all.forEach((t, place) => {
      const own = t.ownerSVGElement, edge = own.getBoundingClientRect(), box = t.getBoundingClientRect(), view = own.viewBox.baseVal;
      const scale = Math.min(edge.width / view.width, edge.height / view.height), px = parseFloat(getComputedStyle(t).fontSize) * scale;
      if (px < type) found.add(`type of ${px.toFixed(1)} px in ${title}`);
      if (box.left < edge.left - 1 || box.right > edge.right + 1
        || box.top < edge.top - 2 || box.bottom > edge.bottom + 2) found.add(`"${words(t)}" leaves ${title}`);
      for (const other of all.slice(place + 1)) if (cross(t, other)) found.add(`"${words(t)}" and "${words(other)}" run into each other in ${title}`);
    });
  }
  if (!document.documentElement.lang || !document.title.trim()) found.add('no language or title');
  return [...found];
}"""


def measured(page: Page) -> list[str]:
    """Everything of that kind on the page as it stands."""
    width = (page.viewport_size or {"width": 1280})["width"]
    found: list[str] = page.evaluate(MEASURE, [LEAST_TARGET_PX, LEAST_TYPE_PX.get(width, 9.5)])
    return found
