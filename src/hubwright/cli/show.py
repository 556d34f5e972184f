"""The answer as a table in the terminal."""

from __future__ import annotations

from itertools import groupby

from rich.console import Console
from rich.markup import escape
from rich.padding import Padding
from rich.table import Table

from hubwright.cli.show_effects import print_effects, print_together, print_torque
from hubwright.findings import Finding, Verdict
from hubwright.jobs.answer import Answer, AxleAnswer, DiscAnswer, PackageAnswer, PlanAnswer
from hubwright.language import say
from hubwright.language.words import (
    axle_title,
    fits_word,
    kind_word,
    law_word,
    question_word,
    status_word,
    use_word,
    verdict_word,
)
from hubwright.quantities.text import change_of, day, left_over, percent, plain, thickness, unit

QUESTIONS = ("clearance", "brake", "centring", "fastener", "law")

STYLE = {Verdict.PASS: "", Verdict.CAUTION: "italic", Verdict.UNKNOWN: "dim", Verdict.FAIL: "bold"}
TOP_READINGS = 5


def print_answer(answer: Answer, only: str | None = None, *, explain: bool = False) -> None:
    """Print an answer.

    Args:
        answer: The answer.
        only: One axle; both when None.
        explain: Also every figure's working and source.
    """
    console = Console(highlight=False, soft_wrap=False)
    law = ", ".join(answer.countries) or say("no country named")
    head = say("{day}, {use} use, law: {law}", day=day(answer.date), use=use_word(answer.use), law=law)
    console.print(f"[bold]{escape(answer.title)}[/]  ({escape(head)})")
    for question in answer.questions:
        console.print(
            f"[bold]?[/] {escape(question.about)} ({escape(question.place)}): {escape(question.text)} {escape(question.todo)}"
        )
    for axle in answer.axles:
        if only in (None, axle.axle):
            _axle(console, axle, explain)
    print_together(console, answer, explain=explain)
    _notes(console, answer)


def _axle(console: Console, axle: AxleAnswer, explain: bool) -> None:
    console.print()
    asked = say("asked: {wish}", wish=axle.wish)
    console.print(f"[bold]{axle_title(axle.axle)}[/], {escape(asked)}")
    console.print(Padding(escape(axle.decision), (0, 0, 0, 2)))
    if axle.released:
        released = say("{released}: measured with this disc fitted, both sides", released=f"[bold]{say('released')}[/]")
        console.print(Padding(released, (0, 0, 0, 2)))
    elif axle.plan.recommended_mm is not None:
        console.print(
            Padding(say("not released: fit it, measure again with the disc fitted, then release"), (0, 0, 0, 2))
        )
    for plan in axle.plans:
        _plan(console, plan, decisive=plan is axle.plan, explain=explain)
    if axle.shelf_is_default:
        console.print(Padding(say("The shop states no discs: the usual series was looked through."), (0, 0, 0, 2)))
    for sentence in axle.provisional:
        console.print(Padding(escape(say("provisional: {text}", text=sentence)), (0, 0, 0, 2)))
    for stands in axle.standing:
        console.print(Padding(escape(say("body line: {text}", text=stands.sentence)), (0, 0, 0, 2)))
    for package in axle.packages:
        _package(console, package)
    print_torque(console, axle, explain=explain)
    print_effects(console, axle, explain=explain)
    _wanted(console, axle)


def _package(console: Console, package: PackageAnswer) -> None:
    """An offered package: the decision, what changes, and why not."""
    console.print()
    name = package.tyre or package.rim or ""
    if package.tyre and package.rim:
        name = say("{tyre} on {rim}", tyre=package.tyre, rim=package.rim)
    offered = f"[bold]{say('Offered:')}[/] {escape(package.name)} ({escape(name)}): {status_word(package.status)}"
    console.print(Padding(offered, (0, 0, 0, 2)))
    console.print(Padding(escape(package.decision), (0, 0, 0, 4)))
    change = package.change
    if change is not None:
        moved = say(
            "outer edge {outer}, inner edge {inner} {unit}, diameter {diameter} ({share}); nothing of it is measured yet",
            outer=change_of(change.outward_mm),
            inner=change_of(change.inward_mm),
            unit=unit(),
            diameter=change_of(change.diameter_mm),
            share=percent(change.diameter_percent / 100),
        )
        console.print(Padding(moved, (0, 0, 0, 4)))
    for stands in package.standing:
        console.print(Padding(escape(say("body line: {text}", text=stands.sentence)), (0, 0, 0, 4)))
    for reason in package.reasons:
        console.print(Padding(f"- {escape(reason)}", (0, 0, 0, 4)))
    if package.recommended_mm is not None:
        best = say("for the wish: no disc; fit it and measure before release")
        if package.recommended_mm:
            disc = thickness(package.recommended_mm)
            best = say("for the wish: {disc} disc; fit it and measure before release", disc=disc)
        console.print(Padding(best, (0, 0, 0, 4)))


def _reasons(console: Console, plan: PlanAnswer) -> None:
    """One sentence per failing, cautioning or open window of every disc; discs with the same reasons together."""
    grid = Table.grid(padding=(0, 2, 0, 0))
    grid.add_column(no_wrap=True)
    grid.add_column()
    for reasons, same in groupby(plan.discs, key=lambda disc: disc.reasons):
        named = [plain(disc.thickness_mm) for disc in same]
        name = f"{named[0]} mm" if len(named) == 1 else say("{low} to {high} mm", low=named[0], high=named[-1])
        for number, reason in enumerate(reasons):
            grid.add_row(name if number == 0 else "", escape(reason))
    console.print()
    console.print(Padding(grid, (0, 0, 0, 4)))
    console.print()


def _plan(console: Console, plan: PlanAnswer, *, decisive: bool, explain: bool) -> None:
    console.print()
    title = say("As the car stands (figures: {unit} left over)", unit=unit())
    if plan.work:
        title = say("With work done: {work} (figures: {unit} left over)", work=", ".join(plan.work), unit=unit())
    console.print(Padding(escape(title), (0, 0, 0, 2)))
    table = Table(box=None, pad_edge=False, padding=(0, 1, 0, 0))
    table.add_column(f"  {say('per side')}", no_wrap=True)
    table.add_column(say("result"))
    for question in QUESTIONS:
        table.add_column(question_word(question))
    for disc in plan.discs:
        mark = "→ " if disc.thickness_mm == plan.recommended_mm and disc is plan.recommended else "  "
        cells = [_cell(disc, question) for question in QUESTIONS]
        table.add_row(f"{mark}{plain(disc.thickness_mm)} mm {kind_word(disc.kind)}", status_word(disc.status), *cells)
    console.print(Padding(table, (0, 0, 0, 2)))
    if decisive:
        _reasons(console, plan)
    for line in plan.order:
        count = "?" if line.count is None else str(line.count) if line.count else "–"
        console.print(
            Padding(
                escape(say("take: {count} × {item} ({note})", count=count, item=line.item, note=line.note)),
                (0, 0, 0, 2),
            )
        )
    if explain:
        _explain(console, plan)


def _cell(disc: DiscAnswer, question: str) -> str:
    finding = next(finding for finding in disc.findings if finding.question == question)
    word = (law_word if question == "law" else fits_word)(finding.verdict)
    if finding.margin_mm is not None and finding.verdict is not Verdict.UNKNOWN:
        word = f"{word} {left_over(finding.margin_mm)}"
    style = STYLE[finding.verdict]
    return f"[{style}]{word}[/]" if style else word


def _explain(console: Console, plan: PlanAnswer) -> None:
    for window in plan.windows:
        text = say(
            "window, {question} ({disc}): {text}",
            question=question_word(window.question),
            disc=kind_word(window.disc),
            text=window.sentence,
        )
        console.print(Padding(escape(text), (0, 0, 0, 4)))
    for disc in plan.discs:
        console.print()
        console.print(
            Padding(f"{thickness(disc.thickness_mm)} {kind_word(disc.kind)}: {status_word(disc.status)}", (0, 0, 0, 4))
        )
        for finding in disc.every:
            print_finding(console, finding)


def print_finding(console: Console, finding: Finding) -> None:
    """One finding with its working, its sources and what to do."""
    asked = f"{question_word(finding.question)}, {verdict_word(finding.verdict)}"
    console.print(Padding(f"{asked}: {escape(finding.sentence)}", (0, 0, 0, 6)))
    for step in finding.working:
        source = f"  [dim]({escape(say(step.source))})[/]" if step.source else ""
        console.print(Padding(f"{escape(step.text)}{source}", (0, 0, 0, 8)))
    if finding.todo:
        console.print(Padding(escape(say("to do: {todo}", todo=finding.todo)), (0, 0, 0, 8)))


def _wanted(console: Console, axle: AxleAnswer) -> None:
    if not axle.wanted:
        return
    console.print(Padding(say("Readings worth taking next:"), (0, 0, 0, 2)))
    needed = sum(item.needed for item in axle.wanted)
    grid = Table.grid(padding=(0, 2, 0, 0))
    grid.add_column(no_wrap=True, justify="right")
    grid.add_column()
    for number, item in enumerate(axle.wanted[: max(TOP_READINGS, needed)], start=1):
        mark = say("needed") if item.needed else say("helps")
        grid.add_row(f"{number}.", f"{escape(item.what)} ({mark}): {escape(item.how)}")
    console.print(Padding(grid, (0, 0, 0, 2)))


def _notes(console: Console, answer: Answer) -> None:
    console.print()
    if answer.law_notes:
        console.print(say("Open for the inspector:"))
    for note in answer.law_notes:
        console.print(Padding(f"{note.jurisdiction}: {escape(note.text)} ({escape(note.citation)})", (0, 0, 0, 2)))
    for caution in answer.cautions:
        console.print(f"! {escape(caution)}")
