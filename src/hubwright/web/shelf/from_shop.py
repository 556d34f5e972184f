"""What a new job takes over from the shop's settings. Settings this program finds faults in give nothing."""

from __future__ import annotations

from hubwright.errors import BadInput
from hubwright.parts.shop_settings import ShopSettings
from hubwright.rules.ruleset import jurisdictions
from hubwright.store.shop_in_job import shop_tables
from hubwright.store.shop_rows import StoredShop


def usual_for_jobs(stored: StoredShop) -> dict[str, str]:
    """Use and countries the form begins with."""
    settings = _sound(stored)
    if settings is None:
        return {"use": "street"}
    return {"use": settings.use or "street", "countries": " ".join(settings.countries)}


def offered(stored: StoredShop) -> tuple[str, ...]:
    """Countries the form offers: those of the shop's law packs, or all."""
    settings = _sound(stored)
    chosen = set() if settings is None else {*settings.law_packs, *(settings.countries if settings.law_packs else ())}
    return tuple(code for code in jurisdictions() if not chosen or code in chosen)


def tables_for_jobs(stored: StoredShop) -> str:
    """The ``[shop]`` table a new job begins with, as TOML; empty where the shop settled nothing."""
    return "" if _sound(stored) is None else shop_tables(stored.data)


def _sound(stored: StoredShop) -> ShopSettings | None:
    try:
        return stored.settings
    except BadInput:
        return None
