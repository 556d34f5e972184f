"""The demo shop: its settings, and the demo cars with invented customers and their scans attached."""

from __future__ import annotations

from importlib.resources import files

from hubwright.jobs.demo import demo_jobs
from hubwright.store.cupboard import Cupboard
from hubwright.store.things import Query

AUTHOR = "Demo"
CUSTOMERS = {
    "hatchback-rear-flush": "A. Sample", "coupe-front-dead-zone": "B. Instance", "saloon-studs": "C. Example",
    "off-roader-adapter": "D. Specimen", "mail-order-plumb-line": "E. Mailorder", "compact-front-lock": "F. Token",
}  # fmt: skip


def fill(cupboard: Cupboard) -> int:
    """Put the demo cars on the shelf, once; how many came.

    Args:
        cupboard: A shelf with jobs on it is left alone, and so are settings the shop has already.
    """
    if cupboard.find(Query(limit=1)):
        return 0
    if cupboard.shop.now().revision == 0:
        settings = files("hubwright.web.shelf").joinpath("demo_shop.toml").read_bytes()
        cupboard.shop.put(settings, AUTHOR, base=0)
    count = 0
    with demo_jobs() as paths:
        for path in reversed(paths):
            card = {"@customer": CUSTOMERS.get(path.stem, "")}
            key = f"demo-{path.stem}"[:64]
            receipt = cupboard.add(path.read_bytes(), AUTHOR, card=card, key=key, name=path.name)
            for beside in sorted(path.parent.glob("*.ply")):
                if beside.name in path.read_text(encoding="utf-8"):
                    with beside.open("rb") as opened:
                        cupboard.attach(receipt.job_id, opened, beside.name, AUTHOR, key=f"demo-{beside.stem}"[:64])
            count += 1
    return count
