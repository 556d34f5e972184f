"""How long the bench takes from a move of the thickness slider to the picture, in a real browser, on a demo car with a scan.

    python benchmarks/bench_bench_page.py [--moves 150] [--title Roadster] [--width 1280] [--browser /usr/bin/chromium]

Measured inside the page: from just before the input event to the frame after the new part of the page was put in. Before
that every step is asked for once, as the server does by itself in the seconds after a map was drawn. In the same run
the whole page is loaded anew, from the start of the navigation to the first paint with content, and the server alone is
asked for the same part, so that it can be seen where the time goes.
"""

from __future__ import annotations

import argparse
import os
import random
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from urllib.request import Request, urlopen

from playwright.sync_api import Page, sync_playwright

MOVE = """async (thickness) => {
  const slider = document.getElementById("slider");
  const live = document.getElementById("live");
  const swapped = new Promise((resolve) => {
    new MutationObserver((_, watching) => {
      if (document.getElementById("live") === live) return;
      watching.disconnect();
      resolve();
    }).observe(document.body, { childList: true, subtree: true });
  });
  const start = performance.now();
  slider.value = String(thickness);
  slider.dispatchEvent(new Event("input", { bubbles: true }));
  await swapped;
  await new Promise((resolve) => requestAnimationFrame(() => {
    const after = new MessageChannel();
    after.port1.onmessage = resolve;
    after.port2.postMessage(0);
  }));
  return [performance.now() - start, document.getElementById("says").textContent.trim()];
}"""
"""A message sent from within a frame arrives after that frame was laid out and painted."""
LOADED = """() => {
  const painted = performance.getEntriesByName("first-contentful-paint")[0];
  return [painted ? painted.startTime : null, performance.getEntriesByType("navigation")[0].loadEventEnd];
}"""
FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip


def at_95(times: list[float]) -> float:
    return statistics.quantiles(times, n=20, method="inclusive")[-1]


def told(what: str, times: list[float]) -> None:
    print(f"{what:44s} median {statistics.median(times):7.1f} ms   95 % {at_95(times):7.1f} ms   "
          f"slowest {max(times):7.1f} ms   ({len(times)} times)")  # fmt: skip


def started(folder: Path) -> tuple[subprocess.Popen[str], str]:
    root = Path(__file__).resolve().parents[1]
    env = {**os.environ, "HUBWRIGHT_DATA": str(folder / "data"), "PYTHONPATH": str(root / "src")}
    command = [sys.executable, "-m", "hubwright", "serve", "--demo", "--port", "0"]
    server = subprocess.Popen(command, env=env, stdout=subprocess.PIPE, text=True)
    assert server.stdout is not None
    line = server.stdout.readline()
    return server, next(word for word in line.split() if word.startswith("http")).rstrip("/")


def job_address(base: str, page: Page, title: str) -> str:
    page.goto(base)
    address = page.locator("a.job", has_text=title).first.get_attribute("href")
    page.goto(f"{base}{address}/bench")
    waited = time.perf_counter()
    while page.locator("#waiting").count():
        page.wait_for_timeout(500)
    print(f"{'waited for the clearance map':44s} {time.perf_counter() - waited:7.1f} s (the page was there meanwhile)")
    return page.url.split("?")[0]


def server_alone(address: str, thicknesses: list[float]) -> list[float]:
    times = []
    for t in thicknesses:
        start = time.perf_counter()
        with urlopen(Request(f"{address}?t={t}", headers={"hw-part": "live"})) as answer:
            answer.read()
        times.append(1000 * (time.perf_counter() - start))
    return times


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--moves", type=int, default=150)
    asked.add_argument("--title", default="Roadster")
    asked.add_argument("--width", type=int, default=1280)
    asked.add_argument("--browser", default="/usr/bin/chromium")
    given = asked.parse_args()
    chance = random.Random(4)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        server, base = started(Path(folder))
        try:
            browser = play.chromium.launch(executable_path=given.browser, args=list(FLAGS))
            page = browser.new_page(viewport={"width": given.width, "height": 900})
            address = job_address(base, page, given.title)
            most = float(page.locator("#slider").get_attribute("max") or 30)
            moves = [chance.randrange(0, int(2 * most)) / 2 for _ in range(given.moves)]
            moves = [t if t != before else (t + 0.5) % most for before, t in zip([None, *moves], moves, strict=False)]
            print(f"{address}, {given.width} px wide, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}")
            first = server_alone(address, [step / 2 for step in range(int(2 * most) + 1)])
            told("server, each step asked for the first time", first)
            times = []
            for t in moves:
                took, says = page.evaluate(MOVE, t)
                assert says.startswith("No disc" if t == 0 else f"{t:g} mm"), (t, says)
                times.append(took)
                page.wait_for_timeout(30)
            loads = []
            for t in moves[: max(20, given.moves // 5)]:
                page.goto(f"{address}?t={t}", wait_until="load")
                painted, loaded = page.evaluate(LOADED)
                loads.append(painted or loaded)
            with urlopen(Request(f"{address}?t=5", headers={"hw-part": "live"})) as answer:
                print(f"{'size of the part that is sent':44s} {len(answer.read()) / 1000:7.1f} kB")
            told("slider moved to picture painted", times)
            told("the whole page anew, to first paint", loads)
            told("server alone, the same part", server_alone(address, moves))
            browser.close()
        finally:
            server.terminate()
            server.wait()


if __name__ == "__main__":
    main()
