"""Every text is in the catalogues, said in the language spoken, and never kept in one language and served in another."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import asdict
from functools import cache
from html import unescape
from pathlib import Path

import pytest
from tests.web.conftest import TODAY, Page, example

import hubwright
from hubwright.jobs.jobfile import has_shapes
from hubwright.jobs.kept_answers import kept_answers
from hubwright.language import LANGUAGES, SOURCE, say
from hubwright.language.collect import out_of_date, po_file, read_po
from hubwright.quantities.text import speaking
from hubwright.reports import Identity, Options, answered
from hubwright.reports.content import texts_of
from hubwright.reports.options import spoken_as
from hubwright.reports.printing import sheet_of
from hubwright.store.cupboard import Cupboard
from hubwright.web.app import create_app
from hubwright.web.desk import Desk
from hubwright.web.options import Options as Serving

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
PLACE = re.compile(r"\{(\w+)")
WORDS = re.compile(r"[A-Za-z]{3,} [A-Za-z]{2,}")
"""What makes a text a sentence rather than a figure or a code."""
OTHERS = [language for language in LANGUAGES if language != SOURCE]

TOLD = ("Bound", "Case", "Fault", "Finding", "Interval", "MissingReading", "Step", "Wanted", "Window")
"""What is handed to people as text."""
CODES = ("evidence", "question", "status", "verdict", "kind")
"""Fields of an answer that are codes in data and become words on the way out."""
CITED = ("source", "citation")
"""Fields of an answer that name a publication, in its own language."""


@cache
def german() -> dict[str, str]:
    """The German of every text that is one form without a meaning beside it."""
    with po_file("de").open("rb") as opened:
        return {one.id: one.string for one in read_po(opened, locale="de") if isinstance(one.id, str) and one.id}


@pytest.mark.slow
def test_the_catalogues_hold_exactly_the_texts_of_the_program() -> None:
    assert [path.name for path in out_of_date()] == [], "run make texts, then fill in what is empty"


@pytest.mark.parametrize("language", OTHERS)
def test_every_text_is_translated_and_keeps_its_places(language: str) -> None:
    with po_file(language).open("rb") as opened:
        catalog = read_po(opened, locale=language)
    wrong = []
    for one in catalog:
        if not one.id:
            continue
        ids = (one.id,) if isinstance(one.id, str) else tuple(one.id)
        strings = (one.string,) if isinstance(one.string, str) else tuple(one.string)
        if one.fuzzy or len(strings) != len(ids) or not all(text.strip() for text in strings):
            wrong.append(("not translated", one.id))
        elif set(PLACE.findall(strings[-1])) != set(PLACE.findall(ids[-1])):
            wrong.append(("other places", one.id))
    assert wrong == []


def by_place(value: object, path: str = "", field: str = "") -> Iterator[tuple[str, str, str]]:
    """Every text of an answer: where, in which field, what."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from by_place(inner, f"{path}.{key}", str(key))
    elif isinstance(value, list | tuple):
        for number, inner in enumerate(value):
            yield from by_place(inner, f"{path}[{number}]", field)
    elif isinstance(value, str):
        yield path, field, value


def texts_in(path: Path, language: str) -> dict[str, str]:
    with speaking("metric", language):
        answer = asdict(hubwright.assess(hubwright.load(path)))
    return {at: text for at, field, text in by_place(answer) if field not in (*CODES, *CITED)}


@pytest.mark.parametrize(
    "path",
    [
        pytest.param(path, id=path.stem, marks=[pytest.mark.slow] if has_shapes(hubwright.load(path)) else [])
        for path in EXAMPLES
    ],
)
def test_no_sentence_of_an_answer_is_english_in_german(path: Path) -> None:
    file, english = path.read_text(encoding="utf-8"), texts_in(path, "en")
    same = {text for at, text in texts_in(path, "de").items() if english.get(at) == text}
    assert english
    assert [text for text in sorted(same) if WORDS.search(text) and text not in file] == []


def glued(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """F-strings with words in them that are handed to people without `say`."""
    for call in ast.walk(tree):
        name = getattr(call.func, "id", getattr(call.func, "attr", "")) if isinstance(call, ast.Call) else ""
        if not isinstance(call, ast.Call) or name not in TOLD:
            continue
        handed = [*call.args[name == "Fault" :], *(item.value for item in call.keywords if item.arg != "field")]
        for text in handed:
            if isinstance(text, ast.JoinedStr):
                fixed = "\0".join(str(part.value) for part in text.values if isinstance(part, ast.Constant))
                if re.search(r"[^\W\d_]{3,}", fixed):
                    yield text.lineno, fixed


@pytest.mark.slow
def test_what_people_are_told_is_never_glued_from_words() -> None:
    source = ROOT / "src" / "hubwright"
    found = []
    for path in sorted(source.rglob("*.py")):
        where = path.relative_to(source)
        found += [f"{where}:{line} {text!r}" for line, text in glued(ast.parse(path.read_text(encoding="utf-8")))]
    assert found == []


def test_a_glued_text_is_noticed() -> None:
    assert list(glued(ast.parse('Fault(f"{name}.value", f"more than {most} points")'))) == [(1, "more than \0 points")]
    assert not list(glued(ast.parse('Step(say("{a} more", a=a), f"{a} kg + {b} = {c} N·m")')))


@cache
def patterns() -> tuple[re.Pattern[str], ...]:
    """Texts with places and enough words of their own to be known again, whose German differs."""
    found = []
    for text, other in german().items():
        parts = re.split(r"\{[^}]*\}", text)
        if len(parts) > 1 and text != other and max(sum(map(str.isalpha, part)) for part in parts) > 8:
            found.append(re.compile(".+?".join(re.escape(part) for part in parts), re.S))
    return tuple(found)


def english_in(texts: list[str], file: str) -> list[str]:
    """Those that are English texts of the catalogue, what somebody wrote into the job file left out."""
    known, said = german(), set(german().values())
    found = []
    for text in dict.fromkeys(texts):
        if len(text) < 3 or text in file or text in said:
            continue
        if known.get(text, text) != text or any(one.fullmatch(text) for one in patterns()):
            found.append(text)
    return found


def shown(page: str) -> list[str]:
    """The texts of a page: between its tags, and those read out or shown in an empty box."""
    page = re.sub(r"<(script|style)\b.*?</\1>", " ", page, flags=re.S)
    attributes = re.findall(r'(?:aria-label|title|placeholder|alt)="([^"]+)"', page)
    between = re.split(r"<[^>]+>", page)
    return [tidy for text in (*between, *attributes) if (tidy := re.sub(r"\s+", " ", unescape(text)).strip())]


@pytest.mark.slow
def test_german_pages_hold_no_english_text(tmp_path: Path) -> None:
    data = example("saloon-studs")
    found: list[tuple[str, str]] = []
    with Cupboard.open(tmp_path / "data") as cupboard:
        job_id = cupboard.add(data, "Ann").job_id
        app = create_app(Desk(cupboard, lambda: TODAY), Serving(author="Ann"))
        with Page(app, base_url="http://127.0.0.1:8040", headers={"accept-language": "de"}) as client:
            pages = (
                "car",
                "measure/rear",
                "bench/rear",
                "fasteners/rear",
                "space/rear",
                "verify/rear",
                "effects",
                "law",
                "paper",
            )
            more = ("files", "history", "aside", "customer", "shop")
            addresses = ["/", "/new", "/law", "/law/DE", "/shop", "/settings"]
            addresses += [f"/jobs/{job_id}/{page}" for page in (*pages, *more)]
            for address in addresses:
                answer = client.get(address)
                assert answer.status_code == 200, address
                assert '<html lang="de"' in answer.text
                found += [(address, text) for text in english_in(shown(answer.text), data.decode())]
    assert found == []


@pytest.mark.parametrize("kind", ["job-card", "measuring", "hand-over"])
def test_german_paper_holds_no_english_text(kind: str) -> None:
    data, options = example("saloon-studs"), Options(language="de")
    job = hubwright.parse(data.decode())
    answer = answered(job, options)
    with spoken_as(options):
        made = sheet_of(kind, job, answer, Identity("0" * 64, "k7m2p9x4q1ab", 3), options)
    texts = [made.title, made.state, *texts_of(made.blocks)]
    assert len(texts) > 20
    assert english_in(texts, data.decode()) == []


def test_an_english_text_is_noticed() -> None:
    with speaking("metric", "en"):
        texts = [say("Front axle"), say("{gap} of air, less {margin} margin", gap="5 mm", margin="3 mm"), "Vorderachse"]
    assert english_in(texts, "") == ["Front axle", "5 mm of air, less 3 mm margin"]


def test_answers_about_a_map_are_kept_for_one_language_and_one_unit(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HUBWRIGHT_CACHE", str(tmp_path))
    job = hubwright.load(ROOT / "examples" / "roadster-front-scan.toml")
    kept = []
    for system, language in (("metric", "en"), ("metric", "de"), ("inch", "en"), ("metric", "en")):
        with speaking(system, language):  # type: ignore[arg-type]  # one of both
            answers = kept_answers(job, "front", "left", lambda: None)
            assert answers is not None
            answers._said["facts"] = say("the clearance map")
            answers._new = True
            kept.append(kept_answers(job, "front", "left", lambda: None)._said.get("facts"))  # type: ignore[union-attr]
            answers.keep()
    assert kept == [None, None, None, "the clearance map"]


def test_the_desk_keeps_an_answer_for_one_language_and_one_unit(tmp_path: Path) -> None:
    with Cupboard.open(tmp_path / "data") as cupboard:
        desk = Desk(cupboard, lambda: TODAY)
        seen = desk.seen(cupboard.add(example("saloon-studs"), "Ann").job_id)
        for language in ("en", "de", "en"):
            with speaking("metric", language):
                assert desk.once("title", seen, lambda: say("Front axle")) == say("Front axle")
