"""Run the server."""

from __future__ import annotations

import logging
import socket
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

import uvicorn

from hubwright.errors import BadInput, Fault
from hubwright.language import say
from hubwright.store.cupboard import Cupboard
from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.options import LOOPBACK_NAMES, Options, is_loopback
from hubwright.web.shelf.demo_shop import fill


@dataclass(frozen=True)
class Listening:
    """Where the server listens.

    Attributes:
        host: Address or name of this machine; a loopback one keeps others out.
        port: Port; 0 = a free one.
        names: Further names it answers to, such as ``workshop.lan``.
        certificate, key: Files for https; both or none.
        base_address: Address written into links and QR codes; empty = as asked.
    """

    host: str = "127.0.0.1"
    port: int = 8040
    names: tuple[str, ...] = ()
    certificate: Path | None = None
    key: Path | None = None
    base_address: str = ""


def options_of(listening: Listening, author: str) -> Options:
    """What follows from where it listens.

    A name or address of the outside says that somebody passes requests on from there, so accounts are demanded even
    where it listens on loopback.

    Raises:
        BadInput: when only one of certificate and key is named, or one cannot be read.
    """
    given = {"certificate": listening.certificate, "key": listening.key}
    faults = [
        Fault(name, say("a file that can be read"), str(path or say("nothing")))
        for name, path in given.items()
        if any(given.values()) and (path is None or not path.is_file())
    ]
    if faults:
        raise BadInput("serve", tuple(faults))
    outside = not is_loopback(listening.host)
    own = (listening.host, socket.gethostname().lower()) if outside else ()
    network = outside or bool(listening.names) or not _is_own(listening.base_address)
    hosts = tuple(dict.fromkeys((*LOOPBACK_NAMES, *own, *(name.lower() for name in listening.names))))
    if outside and listening.host in ("0.0.0.0", "::"):
        hosts = tuple(dict.fromkeys((*hosts, *_addresses())))
    return Options(author, network, hosts, listening.certificate is not None, listening.base_address.rstrip("/"))


def run(
    cupboard: Cupboard, listening: Listening, author: str, tell: Callable[[str], None], *, demo: bool = False
) -> None:
    """Serve until interrupted.

    Args:
        cupboard: The shop's store.
        listening: Where.
        author: Name beside entries where nobody signs in.
        tell: Called with the address once it can be opened.
        demo: Put the demo cars on an empty shelf.

    Raises:
        BadInput: when it cannot be run so, or others could reach it and nobody could manage it.
    """
    options = options_of(listening, author)
    if options.network:
        refuse_unmanaged(cupboard)
    bound = _bound(listening)
    desk = Desk(cupboard)
    if demo:
        fill(cupboard)
    config = uvicorn.Config(
        create_app(desk, options), log_level=logging.WARNING,
        ssl_certfile=listening.certificate, ssl_keyfile=listening.key, server_header=False, date_header=True,
        timeout_graceful_shutdown=5,
    )  # fmt: skip
    scheme, port = ("https" if listening.certificate else "http"), bound.getsockname()[1]
    name = f"[{listening.host}]" if ":" in listening.host else listening.host
    tell(f"{scheme}://{name}:{port}/")
    uvicorn.Server(config).run(sockets=[bound])


def _is_own(address: str) -> bool:
    """Whether an address is none, or one only this machine opens."""
    return not address or is_loopback((urlsplit(address).hostname or "").lower())


def refuse_unmanaged(cupboard: Cupboard) -> None:
    """Hold back from opening a store to a network that nobody could manage.

    Raises:
        BadInput: without an account that has access and may manage.
    """
    if cupboard.people.can_be_managed():
        return
    todo = say(
        "Add one first: hubwright store people add NAME manage (with HUBWRIGHT_DATA={folder}). "
        "Or leave --host, --name and --base-address out: then only this machine can open the pages, and nobody signs in.",
        folder=cupboard.data,
    )
    wanted = say("somebody who may manage, before others on the network can open the pages")
    raise BadInput("serve", (Fault("host", wanted, say("no such account"), todo),))


def _bound(listening: Listening) -> socket.socket:
    family = socket.AF_INET6 if ":" in listening.host else socket.AF_INET
    made = socket.socket(family, socket.SOCK_STREAM)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((listening.host, listening.port))
        made.listen(socket.SOMAXCONN)
    except OSError as error:
        made.close()
        given = f"{listening.host} port {listening.port}: {error.strerror or error}"
        todo = say("Another program may listen there: stop it, or name another with --port.")
        raise BadInput("serve", (Fault("port", say("an address and port that are free"), given, todo),)) from None
    return made


def _addresses() -> tuple[str, ...]:
    """Addresses of this machine, as far as it knows them."""
    try:
        found = socket.getaddrinfo(socket.gethostname(), None)
    except OSError:
        return ()
    return tuple(dict.fromkeys(str(item[4][0]) for item in found))
