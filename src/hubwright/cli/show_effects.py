"""What else changes, and what torque is on record, as a few lines in the terminal."""

from __future__ import annotations

from rich.console import Console
from rich.markup import escape
from rich.padding import Padding

from hubwright.checks.effect import Effect
from hubwright.findings import Finding, Step, Verdict
from hubwright.jobs.answer import Answer, AxleAnswer
from hubwright.language import say
from hubwright.language.words import of_both_sides
from hubwright.quantities.axes import SIDES
from hubwright.quantities.text import thickness


def print_torque(console: Console, axle: AxleAnswer, *, explain: bool) -> None:
    """The record with its source, or that it must be looked up; what does not agree; order and re-check."""
    _line(console, f"[bold]{say('Torque')}[/]", 2)
    _line(console, escape(axle.torque.sentence), 4)
    for finding in axle.torque.findings:
        if finding.verdict is not Verdict.UNKNOWN:
            _finding(console, finding, explain)
    _line(console, escape(say("order: {order}", order=axle.torque.order)), 4)
    _line(console, escape(say("re-check: {recheck}", recheck=axle.torque.recheck)), 4)
    for warning in axle.torque.warnings if explain else axle.torque.warnings[:1]:
        _line(console, escape(say("mind: {warning}", warning=warning)), 4)
    _joint(console, axle)


def _joint(console: Console, axle: AxleAnswer) -> None:
    """The joint of the recommended disc; its working stands with the disc under --explain."""
    best = axle.plan.recommended
    if best is None:
        return
    said = [finding for finding in best.every if finding.question == "joint"]
    for sentence in _both_sides(said):
        _line(console, escape(sentence), 4)


def _both_sides(findings: list[Finding]) -> list[str]:
    """Sentences with their marks; one that both sides share is said once."""
    sentences = [marked_sentence(item.verdict, item.sentence) for item in findings]
    sides: dict[str, set[str]] = {}
    for item, text in zip(findings, sentences, strict=True):
        sides.setdefault(of_both_sides(text), set()).add(item.case.side if item.case else "")
    found = []
    for text in sentences:
        shared = of_both_sides(text)
        found.append(shared if sides[shared] >= set(SIDES) else text)
    return list(dict.fromkeys(found))


def marked_sentence(verdict: Verdict, sentence: str) -> str:
    """A sentence with its verdict before it, where it is no good one."""
    if verdict is Verdict.CAUTION:
        return say("caution: {sentence}", sentence=sentence)
    return say("no: {sentence}", sentence=sentence) if verdict is Verdict.FAIL else sentence


def print_effects(console: Console, axle: AxleAnswer, *, explain: bool) -> None:
    """What else changes with the recommended and the wished disc; tyres and wheels that carry too little."""
    for disc in axle.effects:
        places = {"what": f"[bold]{say('What else changes')}[/]", "disc": thickness(disc.thickness_mm)}
        if disc.thickness_mm == axle.plan.recommended_mm:
            _line(console, say("{what} with {disc} per side (recommended)", **places), 2)
        else:
            _line(console, say("{what} with {disc} per side (asked for)", **places), 2)
        _effects(console, disc.effects, explain)
    told = [item for item in axle.load if explain or item.verdict in (Verdict.FAIL, Verdict.CAUTION)]
    if told:
        _line(console, f"[bold]{say('Load and speed')}[/]", 2)
    for finding in told:
        _finding(console, finding, explain)


def print_together(console: Console, answer: Answer, *, explain: bool) -> None:
    """The whole car with every recommended disc."""
    if answer.together:
        console.print()
        console.print(f"[bold]{say('The car with all recommended discs')}[/]")
        _effects(console, answer.together, explain)


def _effects(console: Console, effects: tuple[Effect, ...], explain: bool) -> None:
    open_ = [effect for effect in effects if not effect.known]
    for effect in effects:
        if effect.known:
            _line(console, f"{'[bold]![/] ' if effect.alarm else ''}{escape(effect.sentence)}", 4)
            _steps(console, effect.working, explain)
    if open_ and not explain:
        _line(
            console,
            escape(
                say("not known: {names} (--explain says what is missing)", names=", ".join(one.name for one in open_))
            ),
            4,
        )
    for effect in open_ if explain else ():
        _line(console, escape(effect.sentence), 4)


def _finding(console: Console, finding: Finding, explain: bool) -> None:
    _line(console, f"{escape(marked_sentence(finding.verdict, finding.sentence))} {escape(finding.todo)}".rstrip(), 4)
    _steps(console, finding.working, explain)


def _steps(console: Console, steps: tuple[Step, ...], explain: bool) -> None:
    for step in steps if explain else ():
        source = f"  [dim]({escape(say(step.source))})[/]" if step.source else ""
        _line(console, f"{escape(step.text)}{source}", 8)


def _line(console: Console, text: str, indent: int) -> None:
    console.print(Padding(text, (0, 0, 0, indent)))
