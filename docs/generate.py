"""Write the generated pages of this folder (``make docs``), or with ``--check`` say which are out of date.

``glossary.md`` comes from ``glossary.toml``; ``validation.md`` from the test files under ``tests/reference``, where the
first line of a file's docstring is the title of the outside source and every test name is a sentence; ``parity.md`` from
``parity.toml``; pictures come from the demo jobs.
"""

from __future__ import annotations

import ast
import sys
import tomllib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
DOCS = ROOT / "docs"
REFERENCE = ROOT / "tests" / "reference"
ENTRY_KEYS = {"word", "meaning", "source"}


def glossary(text: str) -> str:
    """The glossary page from the text of ``glossary.toml``.

    Raises:
        ValueError: an entry lacks a key or has one too many, or a word stands there twice.
    """
    entries: list[dict[str, str]] = tomllib.loads(text)["entry"]
    for entry in entries:
        if set(entry) != ENTRY_KEYS:
            raise ValueError(f"glossary.toml: wanted the keys {sorted(ENTRY_KEYS)}; given {entry}")
    words = [entry["word"] for entry in entries]
    if twice := sorted({word for word in words if words.count(word) > 1}):
        raise ValueError(f"glossary.toml: explained twice: {', '.join(twice)}")
    rows = [(entry["word"], entry["meaning"], entry["source"]) for entry in sorted(entries, key=_by_word)]
    return _page("Glossary", "docs/glossary.toml", _table(("word", "meaning", "source"), rows))


def validation(files: dict[str, str]) -> str:
    """The validation page from the reference tests: name of the file -> its text.

    Raises:
        ValueError: a file has no docstring to name its source, or no test.
    """
    rows = [(title, "<br>".join(sentences), f"`{name}`") for title, sentences, name in sorted(_cases(files))]
    intro = (
        "Every figure in these tests comes from outside the project; `make test` runs them. Each sentence is one test."
    )
    body = (
        f"{intro}\n\n{_table(('source', 'what holds', 'file'), rows)}" if rows else "No outside source is checked yet."
    )
    return _page("Validation", "tests/reference/", body)


def parity(text: str) -> str:
    """The page of what can be done where, from the text of ``parity.toml``."""
    things: list[dict[str, Any]] = tomllib.loads(text)["thing"]
    rows = [
        (
            thing["does"],
            *("<br>".join(f"`{name}`" for name in thing[key]) or "–" for key in ("command", "library", "api")),
            thing.get("why", ""),
        )
        for thing in things
    ]
    intro = (
        "Everything a page can do, the command line, the library and the API can do as well. A command stands behind `hubwright`; `Cupboard` is "
        "`hubwright.store.cupboard.Cupboard`; an operation is the name under `/api/openapi.json`."
    )
    head = ("on the pages one can", "command", "library", "API", "why not everywhere")
    return _page("What can be done where", "docs/parity.toml", f"{intro}\n\n{_table(head, rows)}")


def sentence(test_name: str) -> str:
    """What a test claims, made from its name: ``test_a_disc_adds_up`` reads "A disc adds up."."""
    words = test_name.removeprefix("test_").replace("_", " ")
    return f"{words[:1].upper()}{words[1:]}."


def reference_files() -> dict[str, str]:
    """Every file of reference tests, by its path from the root of the project."""
    return {
        path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8") for path in REFERENCE.rglob("test_*.py")
    }


def demo_windows() -> str:
    """The picture of the README: the windows of the first demo car with its arch lips rolled."""
    import hubwright  # noqa: PLC0415 - the pages of words do without the program
    from hubwright.drawings.windows import windows_svg  # noqa: PLC0415

    answer = hubwright.assess(hubwright.load(ROOT / "examples" / "hatchback-rear-flush.toml")).axle("rear")
    return windows_svg(answer.plan, answer.wish_mm, "Lowered hatchback, rear axle") + "\n"


def tyre_on_rims() -> str:
    """The picture of the page on tyres: one tyre on rims from 6.5 to 9.5 in."""
    from hubwright.drawings.rimchart import rim_chart_svg  # noqa: PLC0415 - the pages of words do without the program
    from hubwright.engineering.tyrewheel.from_sizes import rim_of, tyre_of  # noqa: PLC0415
    from hubwright.parts.rim_size import read_rim_size  # noqa: PLC0415
    from hubwright.parts.tyre_size import read_tyre_size  # noqa: PLC0415

    rim = rim_of(read_rim_size("7Jx17"))
    carcass = tyre_of(read_tyre_size("215/45R17"), rim, section_width_read_mm=213.0).carcass
    title = "215/45R17, 213 mm wide on a 7 in rim"
    return rim_chart_svg(carcass, (6.5, 7.0, 7.5, 8.0, 8.5, 9.0, 9.5), title, 7.0) + "\n"


PAGES: dict[str, Callable[[], str]] = {
    "glossary.md": lambda: glossary((DOCS / "glossary.toml").read_text(encoding="utf-8")),
    "validation.md": lambda: validation(reference_files()),
    "parity.md": lambda: parity((DOCS / "parity.toml").read_text(encoding="utf-8")),
    "pictures/windows.svg": demo_windows,
    "pictures/tyre-on-rims.svg": tyre_on_rims,
}


def stale_pages() -> list[str]:
    """Pages whose text is not what would be written now."""
    return [name for name, build in PAGES.items() if _text_of(DOCS / name) != build()]


def main(arguments: list[str]) -> int:
    """Write the pages, or with ``--check`` only compare; 1 when a page is out of date."""
    stale = stale_pages()
    if arguments == ["--check"]:
        if stale:
            print(f"Out of date: {', '.join(stale)}. Run make docs.")
        else:
            print("Generated pages are up to date.")
        return 1 if stale else 0
    for name in stale:
        (DOCS / name).parent.mkdir(exist_ok=True)
        (DOCS / name).write_text(PAGES[name](), encoding="utf-8", newline="\n")
    print(f"Wrote {', '.join(stale)}." if stale else "Nothing to write: every page is up to date.")
    return 0


def _cases(files: dict[str, str]) -> list[tuple[str, list[str], str]]:
    cases: list[tuple[str, list[str], str]] = []
    for name, text in files.items():
        tree = ast.parse(text)
        docstring = ast.get_docstring(tree)
        tests = [node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef) and _is_test(node.name)]
        if not docstring or not tests:
            raise ValueError(f"{name}: wanted a docstring whose first line names the source, and at least one test")
        cases.append((docstring.splitlines()[0].rstrip("."), [sentence(test) for test in tests], name))
    return cases


def _is_test(name: str) -> bool:
    return name.startswith("test_")


def _by_word(entry: dict[str, str]) -> str:
    return entry["word"].casefold()


def _table(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    lines = [head, ("---",) * len(head), *rows]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines)


def _page(title: str, made_from: str, body: str) -> str:
    return f"<!-- Made from {made_from} by make docs; do not edit here. -->\n\n# {title}\n\n{body}\n"


def _text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8") if path.exists() else ""


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
