"""A real server in a process of its own that can be killed, and a real browser before it."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.error import URLError
from urllib.request import urlopen

import pytest


class Server:
    """The server on loopback, with its data in a folder that outlives it."""

    def __init__(self, data: Path) -> None:
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = probe.getsockname()[1]
        self.data = data
        self.address = f"http://127.0.0.1:{self.port}"
        self._process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start it and wait until it answers."""
        words = [sys.executable, "-m", "hubwright", "serve", "--port", str(self.port)]
        surroundings = {**os.environ, "HUBWRIGHT_DATA": str(self.data)}
        self._process = subprocess.Popen(words, env=surroundings, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for _ in range(300):
            try:
                urlopen(self.address, timeout=2).close()
            except (URLError, OSError):
                time.sleep(0.1)
            else:
                return
        raise RuntimeError("the server does not answer")

    def kill(self) -> None:
        """Kill it where it stands."""
        if self._process is not None and self._process.poll() is None:
            self._process.send_signal(signal.SIGKILL)
            self._process.wait()


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A running server."""
    made = Server(tmp_path / "shop")
    made.start()
    yield made
    made.kill()


@pytest.fixture
def context(chromium: Any) -> Iterator[Any]:
    """A browser as a tablet has it."""
    made = chromium.new_context(viewport={"width": 820, "height": 1180}, has_touch=True)
    made.set_default_timeout(15_000)
    yield made
    made.close()
