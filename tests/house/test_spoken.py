"""What people read goes through `say`: no sentence stands bare in the code or in a template, and none is spoken at import."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from hubwright.language.collect import TOLD, TOLD_BY_NAME, template

SOURCE = Path(__file__).resolve().parents[2] / "src" / "hubwright"
SPEAKERS = ("say", "say_n", "say_as", "marked", "marked_as")
SHOWN = (
    "BadDataFile", "BadInput", "Bound", "Case", "Fault", "Finding", "MissingReading", "Step", "StoreRefusal", "Wanted",
    "Window", "leave", "say_line", "write",
)  # fmt: skip
"""What hands texts to people; whatever is raised does so as well."""
PHRASE = re.compile(r"[^\W\d_]{3,}[,:;]? [^\W\d_]{2,}")
"""Two words: where people read it, that is a text."""
SENTENCE = re.compile(r"[^\W\d_]{2,}[,:;]? (?:[^\W\d_]+[,:;]? ){2,}[^\W\d_]{2,}")
"""Four words in a row: anywhere in the code, that may be a text."""

OTHER_TONGUES = {
    "jobs/template.py": "lines of a job file, which explains itself in English",
    "drawings/style.py": "CSS",
    "drawings/svg.py": "SVG",
    "reports/code.py": "SVG",
    "store/dialects.py": "SQL",
    "language/collect.py": "a tool of those who write the program",
    "cli/spoken_faults.py": "the words of a library, to be known again",
}
"""Files, or folders, that speak another language than people do."""
NAMES = {
    "web/api/": "the OpenAPI description, for programmers, in English",
    "drawings/": "names of strokes and groups, for tests and tooltips of programmers",
    "web/sheet/worth.py": "English texts of other modules, known again",
}
"""Files whose bare words are names of things; what they hand to people is still looked at."""
CODES = {
    "LINE LWPOLYLINE POLYLINE ARC SPLINE ELLIPSE": "words of a DXF file",
    "system of units spoken": "the name of a variable",
    "Input should be ": "the words of a library, to be known again",
    "wanted one of \0, given ": "asked for a language there is none of: a mistake in a program",
    "no kept text": "caught where data are read",
    "not what was wanted": "the template of a library, filled with spoken texts",
    "the compiler gave no PDF": "a mistake in a program",
    "the last try returns or raises": "a mistake in a program",
    "take, drop": "codes a form sends",
    "front, rear": "codes a form sends",
    "plain, lipped": "codes a form sends",
    "nobody named": "who did it where nobody said a name: kept as such in the history",
    "standard uncertainty, in the unit of the value": "the JSON schema of a reading, in English",
    "how it was read": "the JSON schema of a reading, in English",
    "farther than \0 x \0 x median distance from the plane through \0 neighbours": "kept for programmers, not shown",
    "Gillespie, Fundamentals of Vehicle Dynamics, chapter 8": "a publication",
    "Reimpell, Stoll & Betzler, The Automotive Chassis, turning circle": "a publication",
    "NHTSA rollover resistance rating": "a publication",
}
"""Bare texts that nobody reads as they stand."""


def called(call: ast.Call) -> str:
    """The last name of what is called."""
    return getattr(call.func, "id", getattr(call.func, "attr", ""))


def bare(node: ast.AST, text_like: re.Pattern[str]) -> Iterator[tuple[int, str]]:
    """Texts below a node that neither go through `say` nor are collected with what they are given to."""
    if isinstance(node, ast.Call):
        name = called(node)
        if name in SPEAKERS:
            return
        collected = [node.args[at] for at in TOLD.get(name, ()) if at < len(node.args)]
        collected += [item.value for item in node.keywords if item.arg in TOLD_BY_NAME.get(name, ())]
        known = [one for one in collected if isinstance(one, ast.Constant)]
        for inner in (node.func, *node.args, *(item.value for item in node.keywords)):
            if not any(inner is one for one in known):
                yield from bare(inner, text_like)
    elif isinstance(node, ast.JoinedStr):
        fixed = "\0".join(str(part.value) for part in node.values if isinstance(part, ast.Constant))
        if text_like.search(fixed):
            yield node.lineno, fixed
        for part in node.values:
            if not isinstance(part, ast.Constant):
                yield from bare(part, text_like)
    elif isinstance(node, ast.Constant):
        if isinstance(node.value, str) and text_like.search(node.value):
            yield node.lineno, node.value
    elif not (isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)):  # a description of the code
        for inner in ast.iter_child_nodes(node):
            yield from bare(inner, text_like)


def returned(node: ast.expr | None) -> Iterator[ast.expr]:
    """Texts a function may give back, those it gives to other functions left out."""
    if isinstance(node, ast.IfExp):
        yield from (*returned(node.body), *returned(node.orelse))
    elif isinstance(node, ast.BoolOp | ast.Tuple):
        for inner in node.values if isinstance(node, ast.BoolOp) else node.elts:
            yield from returned(inner)
    elif isinstance(node, ast.BinOp):
        yield from (*returned(node.left), *returned(node.right))
    elif isinstance(node, ast.Constant | ast.JoinedStr):
        yield node


def shown(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Bare texts where people read them: raised, given to what is shown, written, or given back."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Raise) and node.exc is not None:
            yield from bare(node.exc, PHRASE)
        elif isinstance(node, ast.Call) and called(node) in SHOWN:
            yield from bare(node, PHRASE)
        elif isinstance(node, ast.Return):
            for text in returned(node.value):
                yield from bare(text, PHRASE)


def spoken_at_import(tree: ast.Module) -> Iterator[int]:
    """Lines at which something is spoken before anybody said in which language."""
    waiting: list[ast.AST] = list(tree.body)
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            waiting += [*node.args.defaults, *(one for one in node.args.kw_defaults if one is not None)]
            continue
        if isinstance(node, ast.Call) and called(node) in ("say", "say_n", "say_as"):
            yield node.lineno
        waiting += ast.iter_child_nodes(node)


@cache
def program() -> dict[str, ast.Module]:
    """Every module by its path."""
    return {
        path.relative_to(SOURCE).as_posix(): ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(SOURCE.rglob("*.py"))
    }


@cache
def catalogued() -> frozenset[str]:
    """Every English text that is in the catalogues."""
    return frozenset(
        one for item in template() if item.id for one in ((item.id,) if isinstance(item.id, str) else item.id)
    )


def test_whatever_people_are_shown_goes_through_say() -> None:
    found = {
        f"{where}:{line} {text!r}"
        for where, tree in program().items()
        for line, text in shown(tree)
        if not where.startswith(tuple(OTHER_TONGUES)) and text not in CODES
    }
    assert sorted(found) == []


@pytest.mark.slow
def test_no_sentence_stands_in_the_code_that_is_in_no_catalogue() -> None:
    texts = catalogued()
    left_out = (*OTHER_TONGUES, *NAMES)
    found = {
        f"{where}:{line} {text!r}"
        for where, tree in program().items()
        for line, text in bare(tree, SENTENCE)
        if not where.startswith(left_out) and text not in CODES and text not in texts
    }
    assert sorted(found) == []


def test_nothing_is_spoken_before_the_language_is_known() -> None:
    assert [f"{where}:{line}" for where, tree in program().items() for line in spoken_at_import(tree)] == []


@pytest.mark.slow
def test_every_exception_is_still_needed() -> None:
    texts = catalogued()
    used: set[str] = set()
    for where, tree in program().items():
        found = {text for _, text in (*shown(tree), *bare(tree, SENTENCE)) if text not in texts}
        used |= found | {one for one in (*OTHER_TONGUES, *NAMES) if found and where.startswith(one)}
    assert [one for one in (*OTHER_TONGUES, *NAMES, *CODES) if one not in used] == []


def test_bare_texts_are_noticed() -> None:
    code = """
def f(x):
    '''Nothing to find in here.'''
    if x:
        raise BadInput(say("the job"), (Fault("a.b", "a whole number", say("none")),))
    leave(f"{x} is missing here")
    return "not in here" if x else say("fine as it is")
"""
    tree = ast.parse(code)
    assert sorted({text for _, text in shown(tree)}) == [
        "\0 is missing here".lstrip("\0"),
        "a whole number",
        "not in here",
    ]
    assert list(spoken_at_import(ast.parse("TITLE = say('the job')\ndef f(x=say('the axle')): say('the car')"))) == [
        2,
        1,
    ]


UNREAD = re.compile(r"\{#.*?#\}|<(script|style|svg|pre|code)\b.*?</\1>", re.S)
ASKED = re.compile(r"\{%.*?%\}|\{\{.*?\}\}", re.S)


def bare_in_template(text: str) -> list[str]:
    """What a template shows without asking for it in the language spoken."""
    text = ASKED.sub("\0", UNREAD.sub("", text))
    attributes = re.findall(r'(?:aria-label|title|placeholder|alt)="([^"]+)"', text)
    between = re.split(r"<[^>]*>|&\w+;", text)
    pieces = [piece.strip() for shown_text in (*between, *attributes) for piece in shown_text.split("\0")]
    return [piece for piece in pieces if re.search(r"[^\W\d_]{3,}", piece) and "=" not in piece]


def test_templates_show_nothing_but_spoken_texts() -> None:
    allowed = {"hubwright", "· hubwright"}
    found = [
        f"{path.name}: {piece!r}"
        for path in sorted(SOURCE.glob("web/templates/**/*.html"))
        for piece in bare_in_template(path.read_text(encoding="utf-8"))
        if piece not in allowed
    ]
    assert found == []


def test_a_bare_text_in_a_template_is_noticed() -> None:
    assert bare_in_template('<p title="Front axle">{{ _("Gaps") }}: read <b>them</b></p>') == [
        ": read",
        "them",
        "Front axle",
    ]
