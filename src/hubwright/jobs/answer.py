"""The answer of one job: frozen, printable, and published as JSON with its own schema."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from hubwright.checks.effect import DiscEffects, Effect
from hubwright.checks.joint import Choice
from hubwright.checks.plausibility import Question
from hubwright.checks.standing import BodyStanding
from hubwright.checks.torque import TorqueAnswer
from hubwright.engineering.tyrewheel.replace import Change, Edges, PackageFigures
from hubwright.findings import Finding, Wanted, Window
from hubwright.parts.shop import DiscKind

ANSWER_VERSION = 1


@dataclass(frozen=True)
class DiscAnswer:
    """One disc of the shelf.

    Attributes:
        thickness_mm: Per side.
        kind: plain, lipped or bolted.
        name: The shop's own name for it.
        status: valid, caution (valid, but mind what it says), not known, refused.
        reasons: One sentence per question that refuses, cautions or cannot be answered; empty for a clean disc.
        findings: One finding per question: clearance, brake, centring, fastener, policy, law.
        every: Every single finding behind them, for explanations.
        fasteners: What holds the wheels with this disc.
        track_increase_mm: Of the axle: twice the thickness.
        released: Only when its margins were read with this very disc fitted, both sides.
    """

    thickness_mm: float
    kind: DiscKind
    name: str | None
    status: str
    reasons: tuple[str, ...]
    findings: tuple[Finding, ...]
    every: tuple[Finding, ...]
    fasteners: tuple[Choice, ...]
    track_increase_mm: float
    released: bool


@dataclass(frozen=True)
class OrderLine:
    """One line to order or to take from the shelf; ``count`` None where the number of holes is not known."""

    count: int | None
    item: str
    note: str


@dataclass(frozen=True)
class PlanAnswer:
    """One way of doing it: as the car stands, or with the work offered done.

    Attributes:
        work: What is done first; empty = as it stands.
        as_it_stands: Clearance of each side without a disc.
        windows: Thicknesses each question allows.
        discs: Every disc of the shelf, by thickness.
        recommended_mm: The disc for the wish, per side; None = none.
        left_alone_mm, right_alone_mm: The thickest valid disc of each side by itself.
            order: What the recommended disc needs, with counts.
        decision: The plan in one or two sentences.
    """

    work: tuple[str, ...]
    as_it_stands: tuple[Finding, ...]
    windows: tuple[Window, ...]
    discs: tuple[DiscAnswer, ...]
    recommended_mm: float | None
    left_alone_mm: float | None
    right_alone_mm: float | None
    order: tuple[OrderLine, ...]
    decision: str

    @property
    def recommended(self) -> DiscAnswer | None:
        """The recommended disc."""
        for disc in self.discs:
            if disc.thickness_mm == self.recommended_mm and disc.status in ("valid", "caution"):
                return disc
        return None


@dataclass(frozen=True)
class PackageAnswer:
    """One offered package in place of the fitted wheels.

    Attributes:
        name: As offered.
        tyre, rim: As marked; None where not stated.
        status: Without a disc: valid, caution, not known, refused.
        decision: The answer in one or two sentences.
        reasons: One sentence per question that refuses, cautions or cannot be answered without a disc.
        figures: Width, inset, diameter, capacities; None where the package cannot be drawn up.
        edges: Outer and inner edge from the hub face, without a disc.
        change: New minus fitted, both without a disc; None where the fitted wheels cannot be drawn up.
        same_outer_disc_mm: The disc at which the outer edge stays where it is; negative where none does.
        same_outer_inset_mm: The inset at which it does so without a disc.
        same_track_disc_mm: The disc at which the track stays as it is.
        speedometer_lead_percent: How much too high the speedometer must show now, least and most, to be lawful after
            (UN R39 at 40, 80 and 120 km/h).
        indicated_at_100_kmh: What it will show at a true 100; None where nobody read what it shows now.
        loaded_radius_mm: Under half the axle load; None where load, or pressure and stiffness, are not stated.
        standing: Against the body lines, without a disc.
        findings: Every finding without a disc.
        discs: Every disc of the shelf under this package.
        valid_discs_mm: Those that are valid, cautions included; 0 = without a disc.
        recommended_mm: For the wish; 0 = without a disc, None = nothing.
        estimated: What of both outlines nobody measured.
    """

    name: str
    tyre: str | None
    rim: str | None
    status: str
    decision: str
    reasons: tuple[str, ...]
    figures: PackageFigures | None
    edges: Edges | None
    change: Change | None
    same_outer_disc_mm: float | None
    same_outer_inset_mm: float | None
    same_track_disc_mm: float | None
    speedometer_lead_percent: tuple[float, float] | None
    indicated_at_100_kmh: float | None
    loaded_radius_mm: float | None
    standing: tuple[BodyStanding, ...]
    findings: tuple[Finding, ...]
    discs: tuple[DiscAnswer, ...]
    valid_discs_mm: tuple[float, ...]
    recommended_mm: float | None
    estimated: tuple[str, ...]


@dataclass(frozen=True)
class AxleAnswer:
    """One axle.

    Attributes:
        axle: front or rear.
        wish: What was asked, in words.
        wish_mm: The thickness asked for, per side.
        decision: The answer in one or two sentences.
        released: Whether the recommended disc was measured as fitted.
        plans: As it stands first; then with the offered work, where it opens anything.
        wanted: Readings worth taking next, best first.
        provisional: What can be said before the missing readings are there.
        shelf_is_default: True when the shop stated no discs and the usual series was looked through.
        torque: What is on record, or that it must be looked up; never anything computed.
        load: Tyres, wheels and speed symbols against plate, trailer and greatest speed.
        effects: What else changes with the recommended and with the wished disc.
        standing: The fitted wheels against the body lines, without a disc.
        packages: Offered packages, in the order of the job.
    """

    axle: str
    wish: str
    wish_mm: float | None
    decision: str
    released: bool
    plans: tuple[PlanAnswer, ...]
    wanted: tuple[Wanted, ...]
    provisional: tuple[str, ...]
    shelf_is_default: bool
    torque: TorqueAnswer
    load: tuple[Finding, ...]
    effects: tuple[DiscEffects, ...]
    standing: tuple[BodyStanding, ...] = ()
    packages: tuple[PackageAnswer, ...] = ()

    @property
    def plan(self) -> PlanAnswer:
        """The plan the decision speaks of: the first with a recommendation, else as it stands."""
        return next((plan for plan in self.plans if plan.recommended_mm is not None), self.plans[0])


@dataclass(frozen=True)
class LawNote:
    """A duty that is never computed: the inspector decides."""

    jurisdiction: str
    text: str
    citation: str
    what_to_do: str


@dataclass(frozen=True)
class Answer:
    """Everything hubwright says about a job.

    Attributes:
        hubwright_answer: Version of this format.
        title: Of the job.
        date: The day whose rules were asked.
        use: Decides the margins.
        countries: Whose law was asked.
        axles: Front first.
        questions: What does not look right in the readings.
        law_notes: Duties that stay open for the inspector.
        cautions: Always shown.
        program: Name and version of the program that answered.
        together: What the car as a whole does with every recommended disc fitted; empty where none is.
    """

    hubwright_answer: int
    title: str
    date: date
    use: str
    countries: tuple[str, ...]
    axles: tuple[AxleAnswer, ...]
    questions: tuple[Question, ...]
    law_notes: tuple[LawNote, ...]
    cautions: tuple[str, ...]
    program: str
    together: tuple[Effect, ...] = ()

    def axle(self, name: str) -> AxleAnswer:
        """The answer for ``front`` or ``rear``.

        Raises:
            KeyError: when the job says nothing about that axle.
        """
        for answer in self.axles:
            if answer.axle == name:
                return answer
        raise KeyError(name)
