"""The rules of some jurisdictions on a day, with what they include and what the shop adds."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import cache
from importlib.resources import files
from pathlib import Path

from hubwright.errors import BadDataFile
from hubwright.language import say
from hubwright.quantities.text import day
from hubwright.rules.loader import parse_rules
from hubwright.rules.model import Jurisdiction, RuleSet, Unanswered

Library = dict[str, tuple[Jurisdiction, ...]]


def jurisdictions(extra_folder: Path | None = None) -> tuple[str, ...]:
    """Codes of all jurisdictions that have a file, sorted.

    Raises:
        BadDataFile: see `rules_for`.
    """
    return tuple(sorted(_library(extra_folder)))


def all_rules(extra_folder: Path | None = None) -> tuple[Jurisdiction, ...]:
    """Every rule file with its papers, ended rules too, for lists on paper and screen."""
    return tuple(part for code in jurisdictions(extra_folder) for part in _library(extra_folder)[code])


def rules_for(asked: Sequence[str], on: date, extra_folder: Path | None = None) -> RuleSet:
    """Limits and obligations of the jurisdictions asked for that are in force on a day.

    A jurisdiction brings along what its file includes (Germany: EU and UN). A rule in force takes the place of those
    it ``replaces``. A jurisdiction without a file, or without any limit in force that day, is listed under ``unknown``
    and so is an empty question: nothing known is never a pass.

    Args:
        asked: Codes such as ``("DE",)``.
        on: The day.
        extra_folder: The shop's own rule files; one with the code of a packaged file adds to that.

    Raises:
        BadDataFile: naming file and key, when a rule file is not as it should be.
    """
    library = _library(extra_folder)
    wanted = tuple(dict.fromkeys(code.strip() for code in asked))
    covered = _with_included(wanted, library)
    parts = [part for code in covered for part in library[code]]
    in_force = [rule for part in parts for rule in part.rules if rule.in_force(on)]
    replaced = {name for rule in in_force for name in rule.replaces}
    rules = tuple(rule for rule in in_force if rule.id not in replaced)
    obligations = tuple(duty for part in parts for duty in part.obligations if duty.in_force(on))
    return RuleSet(wanted, covered, on, rules, obligations, _unanswered(wanted, library, on))


def _unanswered(wanted: tuple[str, ...], library: Library, on: date) -> tuple[Unanswered, ...]:
    if not wanted:
        return (Unanswered("", say("no country was named")),)
    found = []
    for code in wanted:
        if code not in library:
            found.append(
                Unanswered(
                    code, say("no rule file for {code}; there are {known}", code=code, known=", ".join(sorted(library)))
                )
            )
        elif not _speaks(code, library, on):
            found.append(Unanswered(code, say("no limit of {code} is in force on {day}", code=code, day=day(on))))
    return tuple(found)


def _speaks(code: str, library: Library, on: date) -> bool:
    """Whether a jurisdiction has a limit in force: one of its own, or an included one if it has none at all.

    An included speedometer rule must not speak for a country whose own limits begin only later.
    """
    own = [rule for part in library[code] for rule in part.rules]
    included = _with_included((code,), library)
    rules = own or [rule for each in included for part in library[each] for rule in part.rules]
    return any(rule.in_force(on) for rule in rules)


def _with_included(codes: tuple[str, ...], library: Library) -> tuple[str, ...]:
    found: dict[str, None] = {}
    waiting = list(codes)
    while waiting:
        code = waiting.pop(0)
        if code in library and code not in found:
            found[code] = None
            waiting += [each for part in library[code] for each in part.includes]
    return tuple(found)


def _library(extra_folder: Path | None) -> Library:
    parts = list(_packaged())
    if extra_folder is not None:
        if not extra_folder.is_dir():
            raise BadDataFile(str(extra_folder), "folder", say("a folder of rule files"), say("no such folder"))
        for path in sorted(extra_folder.glob("*.toml")):
            parts.append(parse_rules(path.stem, _text(path), str(path)))
    library: Library = {}
    for part in parts:
        library[part.code] = (*library.get(part.code, ()), part)
    _agree(library)
    return library


@cache
def _packaged() -> tuple[Jurisdiction, ...]:
    folder = files("hubwright.rules").joinpath("data")
    names = sorted(file.name for file in folder.iterdir() if file.name.endswith(".toml"))
    return tuple(
        parse_rules(name.removesuffix(".toml"), folder.joinpath(name).read_text(encoding="utf-8"), name)
        for name in names
    )


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise BadDataFile(str(path), "file", say("text in UTF-8"), str(error)) from error


def _agree(library: Library) -> None:
    """Refuse ids used in two files, and references to files and rules that do not exist."""
    parts = [part for each in library.values() for part in each]
    known: set[str] = set()
    for part in parts:
        own = {rule.id for rule in part.rules} | {duty.id for duty in part.obligations}
        if both := sorted(own & known):
            raise BadDataFile(f"{part.code}.toml", both[0], say("an id used once"), say("the same id in two files"))
        known |= own
    for part in parts:
        for code in part.includes:
            if code not in library:
                raise BadDataFile(f"{part.code}.toml", "includes", say("codes of other rule files"), code)
        for rule in part.rules:
            for name in rule.replaces:
                if name not in known:
                    raise BadDataFile(f"{part.code}.toml", f"{rule.id}.replaces", say("ids of other rules"), name)
