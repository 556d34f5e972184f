"""hubwright: how far each wheel of a car may move outboard, with what fasteners, and why.

import hubwright

job = hubwright.load("job.toml")
answer = hubwright.assess(job)
tried = hubwright.try_discs(job, [hubwright.DiscToTry("rear", 7.5)])
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hubwright.jobs.assess import assess
    from hubwright.jobs.jobfile import load, parse
    from hubwright.jobs.trial import DiscToTry, try_discs

__version__ = "0.1.0"
__all__ = ["DiscToTry", "__version__", "assess", "load", "parse", "try_discs"]

_HOMES = {
    "DiscToTry": "hubwright.jobs.trial",
    "assess": "hubwright.jobs.assess",
    "load": "hubwright.jobs.jobfile",
    "parse": "hubwright.jobs.jobfile",
    "try_discs": "hubwright.jobs.trial",
}


def __getattr__(name: str) -> Any:
    """Bring in the program only when it is used, so that asking for help stays quick."""
    if name in _HOMES:
        from importlib import import_module  # noqa: PLC0415 - see above

        return getattr(import_module(_HOMES[name]), name)
    raise AttributeError(name)
