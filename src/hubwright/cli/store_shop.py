"""``hubwright store shop``: the settings of the shop. Thin, like every command."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from hubwright.cli.tongue import Language, Tongue

app = typer.Typer(
    name="shop",
    help="The settings of the shop: name, house rules, shelf, tools; new jobs begin with them (hubwright schema shop).",
    no_args_is_help=True,
    rich_markup_mode=None,
)

By = Annotated[str | None, typer.Option(help="Who; HUBWRIGHT_AUTHOR or the login name when missing.")]
Note = Annotated[str, typer.Option(help="Why, for the history.")]


@app.command()
def show(
    file: Annotated[Path | None, typer.Argument(help="Where to; the screen when missing.", show_default=False)] = None,
    revision: Annotated[int | None, typer.Option(help="As they stood; the newest when missing.")] = None,
    language: Language = Tongue.EN,
) -> None:
    """Take the settings out, byte for byte."""
    from hubwright.cli import store_shop_work  # noqa: PLC0415

    store_shop_work.show(file, revision)


@app.command()
def put(
    file: Annotated[Path, typer.Argument(help="The edited settings (TOML).", show_default=False)],
    base: Annotated[
        int | None, typer.Option(help="The revision they were taken out at; the newest when missing.")
    ] = None,
    note: Note = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Put edited settings back; what others changed meanwhile is kept, or told."""
    from hubwright.cli import store_shop_work  # noqa: PLC0415

    store_shop_work.put(file, base, note, by)


@app.command()
def history(language: Language = Tongue.EN) -> None:
    """Show every revision: who, when, what."""
    from hubwright.cli import store_shop_work  # noqa: PLC0415

    store_shop_work.history()


@app.command()
def undo(
    revision: Annotated[int | None, typer.Option(help="The one to take back; the newest when missing.")] = None,
    note: Note = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Take one revision back by a new one; nothing leaves the history."""
    from hubwright.cli import store_shop_work  # noqa: PLC0415

    store_shop_work.undo(revision, note, by)


@app.command()
def into(
    job: Annotated[
        str, typer.Argument(metavar="JOB", help="Name of the job, or its first letters.", show_default=False)
    ],
    look: Annotated[bool, typer.Option("--look", help="Only show in what the job differs from the shop.")] = False,
    note: Note = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Let a job take over what the shop has settled since the job began.

    Leaves with 1 when something had to be put aside.
    """
    from hubwright.cli import store_shop_work  # noqa: PLC0415

    store_shop_work.into(job, note, by, look=look)
