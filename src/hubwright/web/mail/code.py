"""The address of a customer's link, as text and as a code for a telephone's camera."""

from __future__ import annotations

from urllib.parse import urlsplit

import segno
from fastapi import Request
from markupsafe import Markup

from hubwright.language import say
from hubwright.web.options import Options, is_loopback
from hubwright.web.render import html


def address_of(request: Request, token: str) -> str:
    """Where the link leads, as the customer must write it."""
    options: Options = request.app.state.options
    return f"{options.base_address or str(request.base_url).rstrip('/')}/m/{token}"


def only_here(address: str) -> bool:
    """Whether only this machine can open an address, so that it is of no use to a customer."""
    return is_loopback((urlsplit(address).hostname or "").lower())


def code_of(address: str) -> Markup:
    """The address as a QR code (ISO/IEC 18004), error correction M, four modules of quiet zone."""
    made = segno.make_qr(address, error="m")
    title = say("QR code of the address")
    svg = made.svg_inline(
        scale=6, border=4, dark="#000", light="#fff", svgclass="qr", lineclass=None, title=title, omitsize=True
    )
    return html(svg)
