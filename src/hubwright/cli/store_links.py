"""``hubwright store link``: links for customers who measure for themselves. Thin, like every command."""

from __future__ import annotations

from typing import Annotated

import typer

from hubwright.cli.tongue import Language, Tongue

app = typer.Typer(
    name="link",
    help="Links for customers who measure for themselves: readings of one job's measuring sheet, nothing else.",
    no_args_is_help=True,
    rich_markup_mode=None,
)

JobName = Annotated[
    str, typer.Argument(metavar="JOB", help="Name of the job, or its first letters.", show_default=False)
]
By = Annotated[str | None, typer.Option(help="Who; HUBWRIGHT_AUTHOR or the login name when missing.")]


@app.command()
def make(
    job: JobName,
    area: Annotated[
        list[str] | None,
        typer.Option(help="Where it may write, such as rear or front.left; repeat it. All when missing."),
    ] = None,
    customer: Annotated[str, typer.Option(help="Whose; stands beside what comes in.")] = "",
    days: Annotated[int, typer.Option(help="How long it leads anywhere.")] = 14,
    address: Annotated[str, typer.Option(help="Where the server is reached, such as https://workshop.lan.")] = "",
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Make a link and print its address; it is told this once and nobody can look it up later."""
    from hubwright.cli import store_links_work  # noqa: PLC0415

    store_links_work.make(job, area or [], customer, days, address, by)


@app.command(name="list")
def list_(job: JobName, language: Language = Tongue.EN) -> None:
    """List the links of a job, those that lead nowhere any more too."""
    from hubwright.cli import store_links_work  # noqa: PLC0415

    store_links_work.show(job)


@app.command()
def revoke(
    job: JobName,
    link: Annotated[str, typer.Argument(help="Name of the link (see hubwright store link list).", show_default=False)],
    by: By = None,
    language: Language = Tongue.EN,
) -> None:
    """Let a link lead nowhere from now on."""
    from hubwright.cli import store_links_work  # noqa: PLC0415

    store_links_work.revoke(job, link, by)
