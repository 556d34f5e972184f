"""Requests nobody thought of: none may fail inside the server, and each answer must be as the description says."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode
from schemathesis.core.failures import Failure, FailureGroup
from tests.web.conftest import TODAY, example

from hubwright.store.cupboard import Cupboard
from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.options import Options

FIELDS = ("rear.track_mm", "car.plate", "@note", "rear.left.point[1].reading[+]", "car", "request.countries")
OURS = {"X-Hubwright": "1"}
CHECKS = (
    "not_a_server_error", "status_code_conformance", "content_type_conformance", "response_headers_conformance",
    "response_schema_conformance", "unsupported_method",
)  # fmt: skip
"""Those that ask for a refusal of everything odd are left out: a body that is no TOML is still a body of bytes."""


@schemathesis.serializer("application/toml")
def _toml(context: Any, value: Any) -> bytes:
    """Bodies that are no JSON go out as they are."""
    return value if isinstance(value, bytes) else str(value).encode("utf-8", "surrogatepass")


def troubles_of(data: Path, database: str | None, requests: int) -> list[str]:
    """Send requests to every address; what was wrong with the answers.

    Args:
        data: Folder of a new store.
        database: URL of an empty database; None = SQLite.
        requests: To each address, half of them as described and half not.
    """
    found: list[str] = []
    with Cupboard.open(data, database) as cupboard:
        app = create_app(Desk(cupboard, lambda: TODAY), Options(author="Ann", hosts=()))
        job_id = cupboard.add(example("hatchback-rear-flush"), "Ann").job_id
        cupboard.attach(job_id, b"\x89PNG\r\n\x1a\nx", "lip.png", "Ann")
        description = schemathesis.openapi.from_asgi("/api/openapi.json", app)
        for result in description.get_all_operations():
            operation = result.ok()
            for mode in (GenerationMode.POSITIVE, GenerationMode.NEGATIVE):
                try:
                    _send(operation, mode, requests // 2, job_id)
                except Unsatisfiable:  # an address that takes nothing has nothing wrong to be sent
                    assert mode is GenerationMode.NEGATIVE
                except (Failure, FailureGroup) as error:
                    parts = error.exceptions if isinstance(error, FailureGroup) else (error,)
                    found += [f"{operation.label}, {mode.value}: {part}" for part in parts]
                except Exception as error:  # noqa: BLE001 - whatever the server did not catch
                    found.append(f"{operation.label}, {mode.value}: {error!r}")
    return found


def _send(operation: Any, mode: GenerationMode, requests: int, job_id: str) -> None:
    turn, checks = [0], [schemathesis.checks.CHECKS.get_one(name) for name in CHECKS]

    @settings(
        max_examples=requests, deadline=None, derandomize=True, database=None, phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(case=operation.as_strategy(generation_mode=mode))
    def send(case: Any) -> None:
        turn[0] += 1
        there = {"job_id": job_id, "axle": "rear"} if turn[0] % 4 else {}
        case.path_parameters.update({name: there[name] for name in there if name in case.path_parameters})
        if isinstance(case.body, dict) and isinstance(case.body.get("readings"), list) and turn[0] % 2:
            case.body["base"] = 1
            for number, reading in enumerate(case.body["readings"]):
                if isinstance(reading, dict):
                    reading["field"] = FIELDS[number % len(FIELDS)]
        if case.media_type == "application/toml" and turn[0] % 2:
            case.body = example("saloon-studs")
        case.call_and_validate(headers=OURS, checks=checks)

    send()


@pytest.mark.slow
def test_no_request_breaks_the_server_or_the_description(tmp_path: Path) -> None:
    assert troubles_of(tmp_path, None, 16) == []


@pytest.mark.slow
def test_nor_does_any_on_postgresql(tmp_path: Path, new_database: str) -> None:
    assert troubles_of(tmp_path, new_database, 6) == []
