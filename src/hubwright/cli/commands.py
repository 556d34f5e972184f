"""Every command, thin: read, call, print. Heavy imports wait inside, so that asking for help stays quick."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from hubwright import __version__
from hubwright.cli import store
from hubwright.cli.tongue import Language, Tongue

OK, QUESTIONS, BAD = 0, 1, 2

app = typer.Typer(
    name="hubwright",
    help="How far may each wheel of this car move outboard, with what fasteners, and why.",
    epilog="Decision support for trained people: the vehicle maker, local law and a licensed inspector overrule it.",
    no_args_is_help=True,
    add_completion=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

app.add_typer(store.app)

JobPath = Annotated[Path, typer.Argument(metavar="JOB", help="A job file (TOML).", show_default=False)]


class Units(StrEnum):
    """Units on the way out. Job files say theirs in the names of their keys."""

    METRIC = "metric"
    INCH = "inch"


class Paper(StrEnum):
    """Formats with a published schema."""

    JOB = "job"
    SHOP = "shop"
    ANSWER = "answer"
    TRIAL = "trial"


def leave(message: object, code: int = BAD) -> NoReturn:
    """Say what is wrong on the error stream and leave."""
    sys.stderr.write(f"{message}\n")
    raise typer.Exit(code)


@app.callback(invoke_without_command=True)
def main(
    version: Annotated[bool, typer.Option("--version", help="Print the version and leave.")] = False,
    language: Language = Tongue.EN,
) -> None:
    """Entry point of every command."""
    if version:
        sys.stdout.write(f"hubwright {__version__}\n")
        raise typer.Exit(OK)


@app.command()
def assess(
    job: JobPath,
    axle: Annotated[str | None, typer.Option(help="Only this axle: front or rear.")] = None,
    explain: Annotated[bool, typer.Option("--explain", help="Show each figure's working and source.")] = False,
    json: Annotated[
        bool, typer.Option("--json", help="Print the whole answer as JSON (see hubwright schema answer).")
    ] = False,
    drawings: Annotated[Path | None, typer.Option(help="Also write drawings (SVG) into this folder.")] = None,
    units: Annotated[Units, typer.Option(help="Units of the printed answer; JSON figures stay in mm.")] = Units.METRIC,
    language: Language = Tongue.EN,
) -> None:
    """Judge every disc of the shelf on every axle of a job.

    Leaves with 0 whenever there is an answer, a refusal included; with 2 when the job file cannot be used.
    """
    from hubwright.cli.work import answer_for  # noqa: PLC0415

    answer_for(job, axle=axle, explain=explain, as_json=json, drawings=drawings, units=units.value)


@app.command(name="try")
def try_(
    job: JobPath,
    discs: Annotated[
        list[str],
        typer.Argument(
            metavar="DISC...",
            help="Axle and thickness per side in mm, such as rear=7.5, rear=15:lipped, or front=0 for no disc.",
            show_default=False,
        ),
    ],
    with_work: Annotated[
        bool, typer.Option("--with-work", help="Reckon the work offered at the points as done.")
    ] = False,
    explain: Annotated[bool, typer.Option("--explain", help="Show each figure's working and source.")] = False,
    json: Annotated[bool, typer.Option("--json", help="Print as JSON (see hubwright schema trial).")] = False,
    units: Annotated[Units, typer.Option(help="Units of the printed text; JSON figures stay in mm.")] = Units.METRIC,
    language: Language = Tongue.EN,
) -> None:
    """Judge discs of any thickness, on the shelf or not, as if they lay there.

    Leaves with 0 whenever there is an answer, a refusal included; with 2 when job or discs cannot be used.
    """
    from hubwright.cli.trying import try_out  # noqa: PLC0415

    try_out(job, discs, with_work=with_work, explain=explain, as_json=json, units=units.value)


@app.command()
def check(
    job: JobPath,
    units: Annotated[Units, typer.Option(help="Units of the printed text.")] = Units.METRIC,
    language: Language = Tongue.EN,
) -> None:
    """Look for faults and implausible readings only.

    Leaves with 0 when nothing stands out, 1 when there are questions, 2 when the file cannot be used.
    """
    from hubwright.cli.work import check_only  # noqa: PLC0415

    check_only(job, units.value)


@app.command()
def new(
    job: JobPath,
    title: Annotated[str, typer.Option(help="What the job is called.")] = "New job",
    studs: Annotated[bool, typer.Option("--studs", help="Studs and nuts instead of bolts.")] = False,
    force: Annotated[bool, typer.Option("--force", help="Write over an existing file.")] = False,
    language: Language = Tongue.EN,
) -> None:
    """Write a job file to fill in, with every reading explained."""
    from hubwright.cli.work import write_new  # noqa: PLC0415

    write_new(job, title, studs=studs, force=force)


@app.command()
def enter(
    job: JobPath,
    field: Annotated[str, typer.Argument(help="Such as rear.hub.spigot_length_mm or rear.left.point[1].reading[+].")],
    value: Annotated[str, typer.Argument(help="Such as 12.5, '[12.5, 12.4]' or '{ travel_mm = 46, gap_mm = 14.5 }'.")],
    language: Language = Tongue.EN,
) -> None:
    """Enter one reading into a job file; its comments stay, and nothing is written unless the whole file is sound."""
    from hubwright.cli.work import enter_value  # noqa: PLC0415

    enter_value(job, field, value)


@app.command()
def rules(
    country: Annotated[
        str | None, typer.Argument(help="Such as DE or AU-NSW; all when missing.", show_default=False)
    ] = None,
    on: Annotated[str | None, typer.Option(help="Day, such as 2026-05-04; today when missing.")] = None,
    json: Annotated[bool, typer.Option("--json", help="Print as JSON.")] = False,
    language: Language = Tongue.EN,
) -> None:
    """List the dated, cited limits of law that are in force on a day."""
    from hubwright.cli.law import list_rules  # noqa: PLC0415

    list_rules(country, on, as_json=json)


@app.command()
def tyre(
    designation: Annotated[str, typer.Argument(metavar="TYRE", help="Such as '235/40R18 95W'.")],
    rim: Annotated[str, typer.Option(help="Such as 8Jx18.")],
    read_width: Annotated[float | None, typer.Option(help="Section width read on this rim, mm.")] = None,
    read_diameter: Annotated[float | None, typer.Option(help="Overall diameter read, mm.")] = None,
    half_width: Annotated[
        list[str] | None, typer.Option(help="Calliper reading radius:half width, mm, such as 272:119.5; repeat it.")
    ] = None,
    tread_width: Annotated[float | None, typer.Option(help="Tread width read, mm.")] = None,
    new_depth: Annotated[float | None, typer.Option(help="Tread depth when new, mm; gives the worn diameter.")] = None,
    load: Annotated[float | None, typer.Option(help="Wheel load, kg; wants --pressure or --stiffness.")] = None,
    pressure: Annotated[float | None, typer.Option(help="Pressure, kPa.")] = None,
    stiffness: Annotated[float | None, typer.Option(help="Vertical stiffness read, N/mm.")] = None,
    snow: Annotated[bool, typer.Option("--snow", help="A snow tyre: its largest may be 1 % larger.")] = False,
    units: Annotated[Units, typer.Option(help="Units of the printed text; what goes in stays in mm.")] = Units.METRIC,
    json: Annotated[bool, typer.Option("--json", help="Print as JSON.")] = False,
    language: Language = Tongue.EN,
) -> None:
    """Figures of one tyre on one rim: design, smallest and largest, section, half widths, load and speed."""
    from hubwright.cli.packages import show_tyre  # noqa: PLC0415
    from hubwright.jobs.tyre_sheet import TyreReadings  # noqa: PLC0415

    readings = TyreReadings(read_width, read_diameter, tread_width, new_depth, (), load, pressure, stiffness)
    show_tyre(designation, rim, readings, half_width or [], snow=snow, units=units.value, as_json=json)


@app.command()
def compare(
    now: Annotated[str, typer.Argument(help="Such as '225/45R17 91W on 7.5Jx17 ET47'.")],
    then: Annotated[str, typer.Argument(help="Such as '235/40R18 95W on 8Jx18 ET45'.")],
    disc: Annotated[float, typer.Option(help="Disc per side under the new wheel, mm.")] = 0.0,
    disc_now: Annotated[float, typer.Option(help="Disc per side under the wheel of today, mm.")] = 0.0,
    lead: Annotated[float | None, typer.Option(help="How much too high the speedometer shows today, percent.")] = None,
    body_line: Annotated[float | None, typer.Option(help="Edge of the body outboard of the hub face, mm.")] = None,
    svg: Annotated[Path | None, typer.Option(help="Also draw both over each other into this file.")] = None,
    units: Annotated[Units, typer.Option(help="Units of the printed text; what goes in stays in mm.")] = Units.METRIC,
    json: Annotated[bool, typer.Option("--json", help="Print as JSON.")] = False,
    language: Language = Tongue.EN,
) -> None:
    """What changes when one wheel and tyre take the place of others."""
    from hubwright.cli.packages import show_comparison  # noqa: PLC0415

    show_comparison(
        now,
        then,
        old_disc_mm=disc_now,
        disc_mm=disc,
        lead_percent=lead,
        body_line_mm=body_line,
        svg=svg,
        units=units.value,
        as_json=json,
    )


@app.command()
def schema(
    of: Annotated[Paper, typer.Argument(help="job, shop, answer or trial.")] = Paper.JOB,
    language: Language = Tongue.EN,
) -> None:
    """Print the JSON Schema of job files, of the shop's settings, of answers or of discs tried."""
    from hubwright.cli.work import print_schema  # noqa: PLC0415

    print_schema(of.value)


@app.command()
def motion(
    job: JobPath,
    axle: Annotated[str | None, typer.Option(help="Only this axle: front or rear.")] = None,
    side: Annotated[str | None, typer.Option(help="Only this side: left or right.")] = None,
    json: Annotated[bool, typer.Option("--json", help="Print every state as JSON.")] = False,
    drawings: Annotated[Path | None, typer.Option(help="Also write charts (SVG) into this folder.")] = None,
    language: Language = Tongue.EN,
) -> None:
    """Show how the wheels move: camber, toe, half-track, steering axis, instant centres, motion ratio, travel by load."""
    from hubwright.cli.motion import show_motion  # noqa: PLC0415

    show_motion(job, axle=axle, side=side, as_json=json, drawings=drawings)


@app.command()
def room(
    job: JobPath,
    axle: Annotated[str | None, typer.Option(help="Only this axle: front or rear.")] = None,
    side: Annotated[str | None, typer.Option(help="Only this side: left or right.")] = None,
    disc: Annotated[float | None, typer.Option(help="Disc per side in mm; the one asked for when missing.")] = None,
    json: Annotated[bool, typer.Option("--json", help="Print as JSON.")] = False,
    drawings: Annotated[Path | None, typer.Option(help="Also write map and view from above (SVG) here.")] = None,
    scene: Annotated[Path | None, typer.Option(help="Also write a 3-D scene (GLB) into this file.")] = None,
    units: Annotated[Units, typer.Option(help="Units of the printed text; JSON figures stay in mm.")] = Units.METRIC,
    language: Language = Tongue.EN,
) -> None:
    """Show the room around each wheel over all travel and lock: least gap with and without a disc, place, what binds next."""
    from hubwright.cli.room import show_room  # noqa: PLC0415

    show_room(job, axle=axle, side=side, disc_mm=disc, as_json=json, drawings=drawings, scene=scene, units=units.value)


@app.command()
def scan(
    job: Annotated[Path, typer.Argument(help="Job file, or a scan file of which the unit is to be guessed.")],
    axle: Annotated[str | None, typer.Option(help="Only this axle: front or rear.")] = None,
    side: Annotated[str | None, typer.Option(help="Only this side: left or right.")] = None,
    json: Annotated[bool, typer.Option("--json", help="Print as JSON.")] = False,
    units: Annotated[Units, typer.Option(help="Units of the printed text; JSON figures stay in mm.")] = Units.METRIC,
    language: Language = Tongue.EN,
) -> None:
    """Show how the scans of a job lie: residuals of the picks, noise, outliers, left and right or upside down questioned."""
    from hubwright.cli.scan import show_scan  # noqa: PLC0415

    show_scan(job, axle=axle, side=side, as_json=json, units=units.value)


class PaperSize(StrEnum):
    """Sizes of paper."""

    A4 = "a4"
    LETTER = "letter"


@app.command()
def paper(
    jobs: Annotated[
        list[str],
        typer.Argument(
            metavar="JOB...",
            help="Job files (TOML), or names of jobs in the store, as many as you like.",
            show_default=False,
        ),
    ],
    sheet: Annotated[
        list[str] | None, typer.Option(help="Which sheet, such as job-card or torque; repeat it. See docs/paper.md.")
    ] = None,
    output: Annotated[
        Path | None, typer.Option(help="File to write; its ending is the format. Several sheets go into one PDF.")
    ] = None,
    all_: Annotated[
        Path | None, typer.Option("--all", help="Folder for every sheet there is something for, each in every format.")
    ] = None,
    size: Annotated[PaperSize, typer.Option("--paper", help="Size of the paper.")] = PaperSize.A4,
    units: Annotated[Units, typer.Option(help="Units on the paper.")] = Units.METRIC,
    language: Language = Tongue.EN,
    axle: Annotated[str | None, typer.Option(help="Drawing of a disc: front or rear.")] = None,
    disc: Annotated[float | None, typer.Option(help="Drawing of a disc: thickness per side, mm.")] = None,
    kind: Annotated[str | None, typer.Option(help="Drawing of a disc: plain or lipped.")] = None,
    address: Annotated[
        str, typer.Option(help="Where the program is reached; then the QR code opens the job in the store.")
    ] = "",
    list_: Annotated[bool, typer.Option("--list", help="Only list the sheets there is something for.")] = False,
) -> None:
    """Print job card, torque sheet, hand-over and the other sheets of one or several jobs.

    Leaves with 2 when a job cannot be used or has nothing for a sheet that was asked for.
    """
    from hubwright.cli.paper import Asked, print_paper  # noqa: PLC0415

    print_paper(
        jobs,
        Asked(tuple(sheet or ()), output, all_, size.value, units.value, language.value, axle, disc, kind, address),
        only_list=list_,
    )


@app.command()
def demo(
    out: Annotated[Path, typer.Option(help="Folder for answers (JSON) and drawings (SVG).")] = Path("demo-out"),
    language: Language = Tongue.EN,
) -> None:
    """Work out the demo cars; write answers and drawings."""
    from hubwright.cli.demo import run_demo  # noqa: PLC0415

    run_demo(out)


@app.command()
def serve(
    host: Annotated[
        str, typer.Option(help="Address to listen at; the usual one keeps other machines out.")
    ] = "127.0.0.1",
    port: Annotated[int, typer.Option(min=0, max=65535, help="Port; 0 = a free one.")] = 8040,
    name: Annotated[list[str] | None, typer.Option(help="Further name it answers to, such as workshop.lan.")] = None,
    certificate: Annotated[Path | None, typer.Option(help="Certificate for https (PEM).")] = None,
    key: Annotated[Path | None, typer.Option(help="Its private key (PEM).")] = None,
    base_address: Annotated[str, typer.Option(help="Address written into links and QR codes.")] = "",
    demo: Annotated[bool, typer.Option("--demo", help="Open the demo shop, in a store of its own.")] = False,
    language: Language = Tongue.EN,
) -> None:
    """Open the pages in a browser: the shelf of jobs, the measuring sheet, the bench and the rest."""
    from hubwright.cli.serve import serve as serve_pages  # noqa: PLC0415
    from hubwright.web.serve import Listening  # noqa: PLC0415

    serve_pages(Listening(host, port, tuple(name or ()), certificate, key, base_address), demo=demo)
