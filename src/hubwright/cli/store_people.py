"""``hubwright store people``: who has an account on the server. Thin, like every command."""

from __future__ import annotations

from typing import Annotated

import typer

from hubwright.cli.tongue import Language, Tongue

app = typer.Typer(
    name="people",
    help="Accounts for a server on a network: measure (readings), decide (and verdicts, papers), manage (and everything else).",
    no_args_is_help=True,
    rich_markup_mode=None,
)

Name = Annotated[str, typer.Argument(help="Name of the person; capitals do not matter.", show_default=False)]
RoleName = Annotated[str, typer.Argument(metavar="ROLE", help="measure, decide or manage.", show_default=False)]
By = Annotated[str | None, typer.Option(help="Who; HUBWRIGHT_AUTHOR or the login name when missing.")]


@app.command()
def add(name: Name, role: RoleName = "measure", by: By = None, language: Language = Tongue.EN) -> None:
    """Add somebody; the password is asked for, or read as the first line of the input."""
    from hubwright.cli import store_people_work  # noqa: PLC0415

    store_people_work.add(name, role, by)


@app.command(name="list")
def list_(language: Language = Tongue.EN) -> None:
    """List everybody, those without access too."""
    from hubwright.cli import store_people_work  # noqa: PLC0415

    store_people_work.show()


@app.command()
def role(name: Name, role: RoleName, by: By = None, language: Language = Tongue.EN) -> None:
    """Give somebody another role."""
    from hubwright.cli import store_people_work  # noqa: PLC0415

    store_people_work.role(name, role, by)


@app.command()
def password(name: Name, by: By = None, language: Language = Tongue.EN) -> None:
    """Give somebody a new password; they are signed out everywhere."""
    from hubwright.cli import store_people_work  # noqa: PLC0415

    store_people_work.password(name, by)


@app.command()
def deactivate(name: Name, by: By = None, language: Language = Tongue.EN) -> None:
    """Take somebody's access away; what they entered stays."""
    from hubwright.cli import store_people_work  # noqa: PLC0415

    store_people_work.deactivate(name, by)


@app.command()
def activate(name: Name, by: By = None, language: Language = Tongue.EN) -> None:
    """Give access back, with role and password as they were."""
    from hubwright.cli import store_people_work  # noqa: PLC0415

    store_people_work.activate(name, by)
