"""Requests nobody thought of: none may fail inside the server, and each answer must be as the description says."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, settings
from tests.web.conftest import TODAY, example

from hubwright.store.cupboard import Cupboard
from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.options import Options

OURS = {"X-Hubwright": "1"}
THERE = "hatchback-rear-flush"
LEFT_OUT = (schemathesis.checks.positive_data_acceptance, schemathesis.checks.negative_data_rejection)
"""A made-up name of a job is well formed and finds nothing; a body that is no TOML is still bytes."""


def opened(data: Path, database: str | None, requests: int) -> Iterator[Any]:
    with Cupboard.open(data, database) as cupboard:
        app = create_app(Desk(cupboard, lambda: TODAY), Options(author="Ann", hosts=()))
        job_id = cupboard.add(example(THERE), "Ann").job_id
        cupboard.attach(job_id, b"\x89PNG\r\n\x1a\nx", "lip.png", "Ann")
        found = schemathesis.openapi.from_asgi("/api/openapi.json", app)

        @found.hook
        def map_path_parameters(context: Any, path_parameters: dict[str, Any] | None) -> Any:
            """Half of all requests speak of a job that is there."""
            if path_parameters and "job_id" in path_parameters and len(str(path_parameters["job_id"])) % 2 == 0:
                path_parameters["job_id"] = job_id
            return path_parameters

        yield found


@pytest.fixture(scope="module")
def on_sqlite(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    yield from opened(tmp_path_factory.mktemp("fuzz"), None, 12)


lazy = schemathesis.pytest.from_fixture("on_sqlite")


@pytest.mark.slow
@lazy.parametrize()
@settings(
    max_examples=12, deadline=None, derandomize=True, database=None, phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)  # fmt: skip
def test_no_request_breaks_the_server_or_the_description(case: Any) -> None:
    case.call_and_validate(headers=OURS, excluded_checks=LEFT_OUT)
