"""What ``hubwright serve`` does."""

from __future__ import annotations

import sys

from hubwright.cli.commands import leave
from hubwright.errors import HubwrightError
from hubwright.language import say
from hubwright.settings import read_settings
from hubwright.store.cupboard import Cupboard
from hubwright.web.options import is_loopback
from hubwright.web.serve import Listening, run

DEMO_FOLDER = "demo"


def serve(listening: Listening, *, demo: bool) -> None:
    """Open the store and serve it; the demo shop has a store of its own."""

    def tell(address: str) -> None:
        sys.stdout.write(f"{say('hubwright is open at {address} (Ctrl-C ends it)', address=address)}\n")
        sys.stdout.flush()
        if address.startswith("http:") and not is_loopback(listening.host):
            warning = say(
                "Without https passwords cross the network readable: name --certificate and --key, or stay on a network you trust."
            )
            sys.stderr.write(f"{warning}\n")

    try:
        settings = read_settings()
        data, database = (settings.data / DEMO_FOLDER, None) if demo else (settings.data, settings.database)
        with Cupboard.open(data, database) as cupboard:
            run(cupboard, listening, settings.author, tell, demo=demo)
    except HubwrightError as error:
        leave(error)
