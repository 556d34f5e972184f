"""Fifty users at once over HTTP lose no reading that was confirmed, and a server killed meanwhile loses none either."""

from __future__ import annotations

import http.client
import json
import threading
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from tests.databases import Place
from tests.journeys.crowd import OURS, SMALL, entering_at_once
from tests.journeys.server import Site

pytestmark = pytest.mark.slow
SECONDS = 8.0


@pytest.fixture
def own_site(place: Place, tmp_path: Path) -> Iterator[Site]:
    """A server of the test's own, on each database in turn."""
    site = Site(tmp_path, place.database, demo=False)
    site.start()
    yield site
    site.stop()
    assert "Traceback" not in site.log, site.log


def test_fifty_users_at_once_lose_nothing(own_site: Site) -> None:
    tally = entering_at_once(own_site, users=50, jobs=25, seconds=SECONDS)
    assert tally.refused == ()
    assert len(tally.confirmed) > 100
    assert tally.lost == (), tally.words
    with own_site.cupboard() as cupboard:
        assert cupboard.check().problems == ()


def test_a_server_killed_while_readings_come_in_has_every_confirmed_one(own_site: Site) -> None:
    with own_site.cupboard() as cupboard:
        job_id = cupboard.add(SMALL, "Ann").job_id
    parts = urlsplit(own_site.address)
    confirmed = 0
    killer = threading.Timer(1.5, own_site.kill)
    killer.start()
    with pytest.raises((ConnectionError, http.client.HTTPException)):
        for number in range(100_000):
            line = http.client.HTTPConnection(parts.hostname or "", parts.port, timeout=30)
            entry = {
                "base": 1,
                "readings": [{"field": "rear.left.point[+]", "value": {"name": f"p{number}", "room": "outside"}}],
            }
            line.request("POST", f"/api/v1/jobs/{job_id}/entries", json.dumps(entry), OURS)
            answer = line.getresponse()
            told = json.loads(answer.read())
            assert answer.status == 200, told
            confirmed += 1
            line.close()
    killer.join()
    assert confirmed > 5
    own_site.start()
    with own_site.cupboard() as cupboard:
        points = len([c for r in cupboard.history(job_id) for c in r.changes])
        assert cupboard.check().problems == ()
    assert confirmed <= points <= confirmed + 1  # the last may have been stored but not confirmed
