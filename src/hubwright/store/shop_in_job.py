"""What a new job takes over from the shop, and in what a job differs from the shop today. Pure: bytes in, bytes out.

A job file stays self-contained: it keeps the ``[shop]`` table it began with, whatever the shop settles later.
"""

from __future__ import annotations

import json
from typing import Any

from hubwright.errors import BadInput
from hubwright.jobs.shopfile import parse_shop
from hubwright.store.difference import differences
from hubwright.store.fields import Place
from hubwright.store.things import Change
from hubwright.store.tomltext import job_of, put, text_of, tree_of

SHARED = ("name", "policy", "assumptions", "disc", "fastener")
"""Keys of the settings that stand in a job's ``[shop]`` table as well."""


def begun(job: bytes, shop: bytes) -> bytes:
    """A new job file with everything the shop settled: its ``[shop]`` table, use and countries.

    Args:
        job: A new job file, without a ``[shop]`` table.
        shop: The shop's settings.

    Raises:
        BadInput: when one of them is not TOML.
    """
    tree = tree_of(shop, "shop")
    for key, value in (("use", tree.get("use")), ("countries", tree.get("countries"))):
        if value:
            job = put(job, Place(("request", key)), json.dumps(value, ensure_ascii=False))
    return with_shop_table(job, shop)


def with_shop_table(job: bytes, shop: bytes) -> bytes:
    """The job file with the shop's present ``[shop]`` table at its end; one that has its own already keeps that.

    Raises:
        BadInput: when one of them is not TOML.
    """
    tables = shop_tables(shop)
    if not tables or "shop" in tree_of(job):
        return job
    text = job.decode()
    ends = "\r\n" if "\r\n" in text else "\n"
    gap = "" if text.endswith("\n") else ends
    return f"{text}{gap}{ends}{tables.replace(chr(10), ends)}".encode()


def shop_tables(shop: bytes) -> str:
    """The ``[shop]`` table a new job begins with, as TOML; empty when the shop settled nothing of it.

    Raises:
        BadInput: when the settings are not TOML.
    """
    import tomlkit  # noqa: PLC0415 - slow to import, only needed for writing

    stated = _shared(tree_of(shop, "shop"))
    return str(tomlkit.dumps({"shop": stated})) if stated else ""


def differences_from_shop(job: bytes, shop: bytes) -> tuple[Change, ...]:
    """What would have to change in a job for its ``[shop]`` table to be the shop's present one; nothing when it means the same.

    Args:
        job: The job file.
        shop: The shop's settings.

    Raises:
        BadInput: when one of them is not TOML.
    """
    try:
        if job_of(job).shop == parse_shop(text_of(shop, "shop")).shop:
            return ()
    except BadInput:
        pass  # a file with faults is compared as it is written
    own, stated = tree_of(job).get("shop"), _shared(tree_of(shop, "shop"))
    before: dict[str, Any] = {} if own is None else {"shop": own}
    return differences(before, {"shop": stated} if stated else {})


def _shared(settings: dict[str, Any]) -> dict[str, Any]:
    return {key: settings[key] for key in SHARED if key in settings}
