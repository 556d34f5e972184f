"""Collect every text of the program and bring the catalogues up to date: ``python -m hubwright.language.collect``.

Texts come from the Python files (`say`, `say_as`, `say_n`, `marked`, `marked_as`, the words of formulas and quantities,
the help of commands, and the descriptions of the job file's fields), from the Jinja templates and from the data files of rules and tables. With
``--check`` nothing is written and the exit code says whether something is out of date.
"""

from __future__ import annotations

import ast
import csv
import io
import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from hubwright.language import DOMAIN, LANGUAGES, SOURCE

ROOT = Path(__file__).resolve().parents[1]
LOCALE = ROOT / "language" / "locale"
TEMPLATE = LOCALE / f"{DOMAIN}.pot"
SPEAKERS = {"say": 1, "marked": 1, "say_n": 2}
SPEAKERS_AS = ("say_as", "marked_as")
TOLD = {
    "OutsideValidity": (0, 1, 3, 4),
    "require_positive": (0,),
    "require_not_negative": (0,),
    "require_within": (0,),
    "require_ascending": (0,),
    "not_known": (0, 1, 4),
    "Quantity": (3, 4),
    "Comparison": (2,),
}
"""What is spoken of the plain arguments of these, by place; an f-string must go through `say`."""
TOLD_BY_NAME = {
    "Field": ("description",),
    "OutsideValidity": ("formula", "quantity", "valid"),
    "Quantity": ("meaning", "base"),
    "Comparison": ("words",),
    "Option": ("help",),
    "Argument": ("help",),
    "Typer": ("help", "epilog"),
}
RULE_KEYS = ("name", "includes_why", "note", "title", "reference", "date_note", "breach", "text", "what_to_do")
CELLS = {
    "wheel_mounting_practice": ("topic", "practice", "how_seen"),
    "tightening_order": ("order",),
    "friction_classes": ("typical",),
    "tightening_factor": ("method",),
    "margins": ("how_seen",),
}
"""Columns of tables that are printed as words."""
NAME = re.compile(r"[a-z]\w*_\w+|\w")
"""A name in the code, which is said as it stands."""
OWN_TITLES = ("margins", "tightening_order", "wheel_mounting_practice")
"""Tables whose title is a description of our own; the others' titles are citations and stay as they are."""
PASSING = (
    "Project-Id-Version", "Report-Msgid-Bugs-To", "POT-Creation-Date", "PO-Revision-Date", "Last-Translator",
    "Language-Team", "Generated-By",
)  # fmt: skip
"""Lines of a header that would change from day to day, or say nothing."""
Found = tuple[str, str | tuple[str, str], str]
"""Where, what (one, or one and many), and which meaning."""


def all_texts() -> Iterator[Found]:
    """Every English text of the program with the file it stands in, file by file."""
    for path in sorted(ROOT.rglob("*.py")):
        yield from _python(path)
    for path in sorted(ROOT.rglob("templates/**/*")):
        if path.is_file():
            yield from _template(path)
    for path in sorted((ROOT / "rules" / "data").glob("*.toml")):
        yield from _rules(path)
    for name in sorted(OWN_TITLES):
        yield f"tables/data/{name}.toml", tomllib.loads(_text(ROOT / "tables" / "data" / f"{name}.toml"))["title"], ""
    for name, columns in sorted(CELLS.items()):
        for row in csv.DictReader(_text(ROOT / "tables" / "data" / f"{name}.csv").splitlines()):
            for column in columns:
                if any(letter.isalpha() for letter in row[column]):
                    yield f"tables/data/{name}.csv", row[column], ""


def _python(path: Path) -> Iterator[Found]:
    where = path.relative_to(ROOT).as_posix()
    tree = ast.parse(_text(path))
    calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call)]
    for node in sorted(calls, key=lambda call: (call.lineno, call.col_offset)):
        name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
        texts = [_constant(argument) for argument in node.args]
        if name in SPEAKERS:
            count = SPEAKERS[name]
            if len(texts) >= count and all(texts[:count]):
                yield where, texts[0] if count == 1 else (texts[0], texts[1]), ""
        elif name in SPEAKERS_AS and len(texts) >= 2 and texts[1]:
            yield where, texts[1], texts[0]
        else:
            told = [texts[place] for place in TOLD.get(name, ()) if place < len(texts)]
            told += [_constant(item.value) for item in node.keywords if item.arg in TOLD_BY_NAME.get(name, ())]
            for text in told:
                if any(letter.isalpha() for letter in text) and not NAME.fullmatch(text):
                    yield where, text, ""
    for one in ast.walk(tree):
        if isinstance(one, ast.FunctionDef) and any(_is_command(decorator) for decorator in one.decorator_list):
            yield where, ast.get_docstring(one) or "", ""


def _is_command(decorator: ast.expr) -> bool:
    """Whether a function is a command, whose help is its docstring."""
    return isinstance(decorator, ast.Call) and getattr(decorator.func, "attr", "") == "command"


def _constant(node: ast.expr) -> str:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


def _template(path: Path) -> Iterator[Found]:
    where = path.relative_to(ROOT).as_posix()
    keywords = {"_": None, "gettext": None, "ngettext": (1, 2), "pgettext": ((1, "c"), 2)}
    options = {"trimmed": "true", "silent": "false", "extensions": "jinja2.ext.do"}
    with path.open("rb") as opened:
        for _, text, _, context in extract("jinja2", opened, keywords=keywords, options=options):
            yield where, text if isinstance(text, str) else (text[0], text[1]), context or ""


def _rules(path: Path) -> Iterator[Found]:
    content = tomllib.loads(_text(path))
    for entry in (content, *content.get("rule", ()), *content.get("obligation", ())):
        for key in RULE_KEYS:
            if entry.get(key):
                yield f"rules/data/{path.name}", entry[key], ""


def _text(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def template() -> Catalog:
    """Every text once, with the files it stands in."""
    catalog = Catalog(project=DOMAIN, charset="utf-8", fuzzy=False)
    for where, text, about in all_texts():
        catalog.add(text, locations=[(where, 0)], context=about or None)
    return catalog


def updated(language: str, texts: Catalog) -> Catalog:
    """A language's catalogue with exactly the texts there are: new ones empty, old ones gone."""
    path = po_file(language)
    catalog = Catalog(locale=language, charset="utf-8", fuzzy=False)
    if path.is_file():
        with path.open("rb") as opened:
            catalog = read_po(opened, locale=language)
    catalog.update(texts, no_fuzzy_matching=True)
    catalog.obsolete.clear()
    return catalog


def po_file(language: str) -> Path:
    """Where the texts of a language lie."""
    return LOCALE / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def as_po(catalog: Catalog) -> bytes:
    """The catalogue as text, without anything that changes from day to day."""
    catalog.header_comment = "# Written by hubwright.language.collect; translations are entered here by hand."
    out = io.BytesIO()
    write_po(out, catalog, width=120, omit_header=False, include_lineno=False, ignore_obsolete=True)
    lines = out.getvalue().decode("utf-8").split("\n")
    dropped = tuple(f'"{name}' for name in PASSING)
    return "\n".join(line for line in lines if not line.startswith(dropped)).encode()


class _Lasting(Catalog):
    """A catalogue whose header holds nothing that changes from day to day."""

    @property
    def mime_headers(self) -> list[tuple[str, str]]:
        """Only what reading needs: the character set and the rule of the plural."""
        return [("Content-Type", "text/plain; charset=utf-8"), ("Plural-Forms", self.plural_forms)]


def as_mo(catalog: Catalog) -> bytes:
    """The catalogue as the program reads it."""
    lasting = _Lasting(locale=catalog.locale, charset="utf-8", fuzzy=False)
    for message in catalog:
        if message.id:
            lasting.add(message.id, message.string, context=message.context)
    out = io.BytesIO()
    write_mo(out, lasting)
    return out.getvalue()


def files_wanted() -> dict[Path, bytes]:
    """Every file of the catalogues as it should be."""
    texts = template()
    wanted = {TEMPLATE: as_po(texts)}
    for language in LANGUAGES:
        if language != SOURCE:
            catalog = updated(language, texts)
            wanted[po_file(language)] = as_po(catalog)
            wanted[po_file(language).with_suffix(".mo")] = as_mo(catalog)
    return wanted


def out_of_date() -> list[Path]:
    """Files of the catalogues that are not as they should be."""
    return [path for path, data in files_wanted().items() if not path.is_file() or path.read_bytes() != data]


def main() -> int:
    """Write the catalogues, or with ``--check`` only say what is out of date."""
    stale = out_of_date()
    for path in stale:
        if "--check" in sys.argv[1:]:
            sys.stdout.write(f"{path.relative_to(ROOT)} is out of date: make texts\n")
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(files_wanted()[path])
            sys.stdout.write(f"{path.relative_to(ROOT)} written\n")
    return 1 if stale and "--check" in sys.argv[1:] else 0


if __name__ == "__main__":
    sys.exit(main())
