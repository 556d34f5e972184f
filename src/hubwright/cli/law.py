"""``hubwright rules``: limits and duties with their papers."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from datetime import date

from hubwright.cli.commands import leave
from hubwright.errors import HubwrightError
from hubwright.language import say
from hubwright.language.part_words import breach_word, duty_word, seen_word
from hubwright.quantities.text import day
from hubwright.rules.comparisons import limit_words
from hubwright.rules.model import RuleSet
from hubwright.rules.ruleset import jurisdictions, rules_for


def list_rules(country: str | None, on: str | None, *, as_json: bool) -> None:
    """Print the rules of one jurisdiction or of all."""
    try:
        asked_day = date.fromisoformat(on) if on else date.today()
    except ValueError:
        leave(say("{option}: wanted a day such as 2026-05-04; given {given}.", option="--on", given=on))
    try:
        known = jurisdictions()
        if country is not None and country not in known:
            leave(
                say(
                    "country: wanted one of {known}; given {given}. A country without a file is unknown, never a pass.",
                    known=", ".join(known),
                    given=country,
                )
            )
        sets = [rules_for([code], asked_day) for code in ([country] if country else known)]
    except HubwrightError as error:
        leave(error)
    if as_json:
        sys.stdout.write(json.dumps([asdict(each) for each in sets], default=str, indent=2, ensure_ascii=False) + "\n")
        return
    for each in sets:
        _show(each)
    sys.stdout.write(f"{say('Not legal advice: the local inspector decides.')}\n")


def _show(law: RuleSet) -> None:
    from rich.console import Console  # noqa: PLC0415
    from rich.markup import escape  # noqa: PLC0415

    console = Console(highlight=False)
    asked = f"[bold]{', '.join(law.asked)}[/]"
    console.print(
        say("{asked} on {day} (with {covered})", asked=asked, day=day(law.on), covered=", ".join(law.covered))
    )
    for gap in law.unknown:
        console.print(f"  {escape(say('unknown: {reason}', reason=gap.reason))}")
    for rule in law.rules:
        console.print(f"  {rule.jurisdiction}: {escape(say(rule.title))}: {limit_words(rule)}", soft_wrap=True)
        breach = say(
            "{citation} ({seen}); breach: {breach}",
            citation=rule.citation,
            seen=seen_word(rule.how_seen),
            breach=breach_word(rule.on_breach),
        )
        console.print(f"      {escape(breach)}", style="dim", soft_wrap=True)
    for duty in law.obligations:
        console.print(f"  {duty.jurisdiction}: {duty_word(duty.kind)}: {escape(say(duty.text))}", soft_wrap=True)
        console.print(f"      {escape(duty.citation)} ({seen_word(duty.how_seen)})", style="dim", soft_wrap=True)
    console.print()
