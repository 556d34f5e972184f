"""``hubwright store``: jobs kept with their history. Thin, like every command."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from hubwright.cli import store_links, store_people, store_shop
from hubwright.cli.tongue import Language, Tongue

app = typer.Typer(
    name="store",
    help="Keep jobs with their whole history, photographs and scans (folder: HUBWRIGHT_DATA, database: HUBWRIGHT_DATABASE).",
    no_args_is_help=True,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)
app.add_typer(store_people.app)
app.add_typer(store_shop.app)
app.add_typer(store_links.app)

JobName = Annotated[
    str, typer.Argument(metavar="JOB", help="Name of the job, or its first letters.", show_default=False)
]
By = Annotated[str | None, typer.Option(help="Who; HUBWRIGHT_AUTHOR or the login name when missing.")]
Note = Annotated[str, typer.Option(help="Why, for the history.")]
Base = Annotated[int | None, typer.Option(help="The revision you had before you; the newest when missing.")]
Day = Annotated[str | None, typer.Option(metavar="DAY", help="Such as 2026-05-04.")]


class AxleOf(StrEnum):
    """Axles to look for."""

    FRONT = "front"
    REAR = "rear"


@app.command()
def add(
    file: Annotated[Path, typer.Argument(help="A job file (TOML); kept byte for byte.", show_default=False)],
    customer: Annotated[str, typer.Option(help="Whose car it is.")] = "",
    note: Note = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Take a job file in as a new job and print the job's name."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.add(file, customer, note, by)


@app.command()
def find(
    words: Annotated[list[str] | None, typer.Argument(help="Each must occur in the job.", show_default=False)] = None,
    title: Annotated[str, typer.Option(help="Part of the title.")] = "",
    plate: Annotated[str, typer.Option(help="Part of the plate; blanks and dashes do not matter.")] = "",
    customer: Annotated[str, typer.Option(help="Part of the customer's name.")] = "",
    axle: Annotated[AxleOf | None, typer.Option(help="The job says something about this axle.")] = None,
    stage: Annotated[str | None, typer.Option(help="draft, assessed, released, waiting for re-torque, ...")] = None,
    since: Day = None,
    until: Day = None,
    due_by: Annotated[str | None, typer.Option(metavar="DAY", help="Re-torque appointment on or before.")] = None,
    open_only: Annotated[bool, typer.Option("--open", help="Only jobs with entries put aside.")] = False,
    limit: Annotated[int, typer.Option(min=1, max=10_000)] = 50,
    json: Annotated[bool, typer.Option("--json", help="Print as JSON.")] = False,
    language: Language = Tongue.EN,
) -> None:
    """List jobs, the one changed last first; only those for which everything stated holds."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.find(
        words=" ".join(words or ()),
        title=title,
        plate=plate,
        customer=customer,
        axle=axle.value if axle else None,
        stage=stage,
        days={"--since": since, "--until": until, "--due-by": due_by},
        only_open_asides=open_only,
        limit=limit,
        as_json=json,
    )


@app.command()
def show(job: JobName, language: Language = Tongue.EN) -> None:
    """Show the card of a job, what is put aside and what is attached."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.show(job)


@app.command()
def take(
    job: JobName,
    file: Annotated[Path | None, typer.Argument(help="Where to; the screen when missing.", show_default=False)] = None,
    revision: Annotated[int | None, typer.Option(help="As it stood; the newest when missing.")] = None,
    language: Language = Tongue.EN,
) -> None:
    """Take a job file out, byte for byte."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.take(job, file, revision)


@app.command()
def put(
    job: JobName,
    file: Annotated[Path, typer.Argument(help="The edited job file.", show_default=False)],
    base: Annotated[int, typer.Option(help="The revision the file was taken out at.")],
    note: Note = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Put an edited job file back; what others changed meanwhile is kept.

    Leaves with 1 when something had to be put aside.
    """
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.put(job, file, base, note, by)


@app.command()
def enter(
    job: JobName,
    field: Annotated[str, typer.Argument(help="Such as rear.hub.spigot_length_mm, or @customer, @stage, @due.")],
    value: Annotated[str, typer.Argument(help="A TOML value, or plain text for the card.")],
    base: Base = None,
    note: Note = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Enter one reading.

    Leaves with 1 when it had to be put aside: somebody changed the field meanwhile, or the job would be faulty with it.
    """
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.enter(job, field, value, base, note, by)


@app.command()
def history(job: JobName, language: Language = Tongue.EN) -> None:
    """Show every revision: who, when, what."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.history(job)


@app.command()
def undo(
    job: JobName,
    revision: Annotated[int | None, typer.Option(help="The one to take back; the newest when missing.")] = None,
    note: Note = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Take one revision back by a new one; nothing leaves the history."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.undo(job, revision, note, by)


@app.command()
def settle(
    entry: Annotated[str, typer.Argument(help="Name of an entry put aside (see hubwright store show).")],
    take_it: Annotated[bool, typer.Option("--take/--drop", help="Whether it goes into the job.", show_default=False)],
    base: Base = None,
    note: Note = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Decide about an entry that was put aside."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.settle(entry, take_it, base, note, by)


@app.command()
def attach(
    job: JobName,
    file: Annotated[Path, typer.Argument(help="A photograph, scan or paper.", show_default=False)],
    note: Annotated[str, typer.Option(help="What it shows.")] = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Keep a photograph, scan or paper with a job."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.attach(job, file, note, by)


@app.command()
def fetch(
    attachment: Annotated[str, typer.Argument(help="Name of an attachment (see hubwright store show).")],
    file: Annotated[Path, typer.Argument(help="Where to.", show_default=False)],
    language: Language = Tongue.EN,
) -> None:
    """Write an attachment into a file, its bytes checked."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.fetch(attachment, file)


@app.command()
def detach(
    job: JobName,
    attachment: Annotated[str, typer.Argument(help="Name of an attachment (see hubwright store show).")],
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Take an attachment out of a job; it stays in the records."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.detach(job, attachment, by)


@app.command(name="export")
def export_(
    file: Annotated[Path, typer.Argument(help="The zip file to write.", show_default=False)],
    jobs: Annotated[list[str] | None, typer.Argument(help="Jobs; all when missing.", show_default=False)] = None,
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Write jobs with history and attachments into one zip file."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.export(file, jobs or [], by)


@app.command(name="import")
def import_(
    file: Annotated[Path, typer.Argument(help="A zip file from hubwright store export.", show_default=False)],
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Take jobs in from such a zip file; nothing here is overwritten."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.bring(file, by)


@app.command()
def backup(
    file: Annotated[Path, typer.Argument(help="The zip file to write.", show_default=False)],
    language: Language = Tongue.EN,
) -> None:
    """Write everything into one file while others work, and read it again."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.backup(file)


@app.command()
def restore(
    file: Annotated[Path, typer.Argument(help="A backup.", show_default=False)],
    force: Annotated[
        bool, typer.Option("--force", help="Also over jobs that are here; they are backed up first.")
    ] = False,
    language: Language = Tongue.EN,
) -> None:
    """Make this store what it was when a backup was taken, and check it."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.restore(file, force=force)


@app.command()
def check(
    mend: Annotated[
        bool, typer.Option("--mend", help="First work out lists and searches again from the jobs.")
    ] = False,
    language: Language = Tongue.EN,
) -> None:
    """Check the database, every history link by link, and every attachment's bytes.

    Leaves with 1 when anything is wrong.
    """
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.check(mend=mend)


@app.command()
def sweep(language: Language = Tongue.EN) -> None:
    """Remove files no job speaks of that have lain there for a day."""
    from hubwright.cli import store_work  # noqa: PLC0415

    store_work.sweep()
