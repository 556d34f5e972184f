"""A server in a process of its own, so that it can be killed without warning and started again on what the disk has."""

from __future__ import annotations

import os
import re
import select
import signal
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

from hubwright.store.cupboard import Cupboard
from hubwright.web.shelf.demo_shop import fill

ROOT = Path(__file__).resolve().parents[2]
STARTS_WITHIN_S = 60.0
AUTHOR = "Ann Wright"


@dataclass
class Site:
    """A running server and where its store lies.

    Attributes:
        folder: Of the store and the log.
        database: URL; None = SQLite in the folder.
        demo: Whether the demo cars are on the shelf.
    """

    folder: Path
    database: str | None = None
    demo: bool = True
    address: str = ""
    _process: subprocess.Popen[bytes] | None = field(default=None, repr=False)

    @property
    def data(self) -> Path:
        """The data folder."""
        return self.folder / "data"

    def cupboard(self) -> Cupboard:
        """The same store, opened by the test beside the server."""
        return Cupboard.open(self.data, self.database)

    def start(self, *more: str) -> None:
        """Start it, on the port of last time if there was one, and wait until it answers.

        Args:
            more: Further arguments of ``hubwright serve``.
        """
        if self.demo:
            with self.cupboard() as cupboard:
                fill(cupboard)
        port = self.address.rstrip("/").rpartition(":")[2] or "0"
        environment = {
            **os.environ, "PYTHONPATH": str(ROOT / "src"), "HUBWRIGHT_DATA": str(self.data), "HUBWRIGHT_AUTHOR": AUTHOR,
            "HUBWRIGHT_DATABASE": self.database or "", "PYTHONUNBUFFERED": "1",
        }  # fmt: skip
        command = [sys.executable, "-m", "hubwright", "serve", "--port", port, *more]
        with (self.folder / "log").open("ab") as log:
            self._process = subprocess.Popen(
                command, env=environment, stdout=subprocess.PIPE, stderr=log, cwd=self.folder
            )
        self.address = self._told().rstrip("/")

    def kill(self) -> None:
        """End it as a cut cable would: nothing is written, nothing is said good-bye to."""
        self._end(signal.SIGKILL)

    def stop(self) -> None:
        """End it as Ctrl-C does."""
        self._end(signal.SIGINT)

    @property
    def log(self) -> str:
        """What it wrote about troubles."""
        path = self.folder / "log"
        return path.read_text(encoding="utf-8", errors="replace") if path.exists() else ""

    def _end(self, how: signal.Signals) -> None:
        if self._process is None:
            return
        self._process.send_signal(how)
        try:
            self._process.wait(20)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait()
        assert self._process.stdout is not None
        self._process.stdout.close()
        self._process = None

    def _told(self) -> str:
        assert self._process is not None and self._process.stdout is not None
        until, text = time.monotonic() + STARTS_WITHIN_S, ""
        while time.monotonic() < until:
            if select.select([self._process.stdout], [], [], 0.2)[0]:
                piece = os.read(self._process.stdout.fileno(), 4096)
                text += piece.decode()
                if not piece:
                    break
            found = re.search(r"https?://\S+", text)
            if found:
                return found[0]
        self._end(signal.SIGKILL)
        raise AssertionError(f"the server did not start: {text}\n{self.log}")
