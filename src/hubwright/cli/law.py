"""``hubwright rules``: limits and duties with their papers."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from datetime import date

from hubwright.cli.commands import leave
from hubwright.errors import HubwrightError
from hubwright.rules.comparisons import limit_words
from hubwright.rules.model import RuleSet
from hubwright.rules.ruleset import jurisdictions, rules_for


def list_rules(country: str | None, on: str | None, *, as_json: bool) -> None:
    """Print the rules of one jurisdiction or of all."""
    try:
        day = date.fromisoformat(on) if on else date.today()
    except ValueError:
        leave(f"--on: wanted a day such as 2026-05-04; given {on}.")
    try:
        known = jurisdictions()
        if country is not None and country not in known:
            leave(
                f"country: wanted one of {', '.join(known)}; given {country}. A country without a file is unknown, never a pass."
            )
        sets = [rules_for([code], day) for code in ([country] if country else known)]
    except HubwrightError as error:
        leave(error)
    if as_json:
        sys.stdout.write(json.dumps([asdict(each) for each in sets], default=str, indent=2, ensure_ascii=False) + "\n")
        return
    for each in sets:
        _show(each)
    sys.stdout.write("Not legal advice: the local inspector decides.\n")


def _show(law: RuleSet) -> None:
    from rich.console import Console  # noqa: PLC0415
    from rich.markup import escape  # noqa: PLC0415

    console = Console(highlight=False)
    console.print(f"[bold]{', '.join(law.asked)}[/] on {law.on} (with {', '.join(law.covered)})")
    for gap in law.unknown:
        console.print(f"  unknown: {escape(gap.reason)}")
    for rule in law.rules:
        console.print(f"  {rule.jurisdiction}: {escape(rule.title)}: {limit_words(rule)}", soft_wrap=True)
        console.print(
            f"      {escape(rule.citation)} ({rule.how_seen}); breach: {rule.on_breach}", style="dim", soft_wrap=True
        )
    for duty in law.obligations:
        console.print(f"  {duty.jurisdiction}: {duty.kind}: {escape(duty.text)}", soft_wrap=True)
        console.print(f"      {escape(duty.citation)} ({duty.how_seen})", style="dim", soft_wrap=True)
    console.print()
