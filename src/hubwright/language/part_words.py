"""Codes of parts, seats, load cases and sources as words; see `hubwright.language.words` for sides and verdicts."""

from __future__ import annotations

from hubwright.language import marked, marked_as, say, say_as
from hubwright.language.words import word

PART = {
    "tyre": marked_as("part", "tyre"),
    "rim flange": marked_as("part", "rim flange"),
    "spoke": marked_as("part", "spoke"),
    "spoke face": marked_as("part", "spoke face"),
    "spoke back": marked_as("part", "spoke back"),
    "cap": marked_as("part", "cap"),
    "valve": marked_as("part", "valve"),
    "barrel": marked_as("part", "barrel"),
    "brake side": marked_as("part", "brake side"),
    "pad": marked_as("part", "pad"),
    "bore": marked_as("part", "bore"),
    "weight": marked_as("part", "weight"),
    "rib": marked_as("part", "rib"),
    "other": marked_as("part", "other"),
}
"""Pieces of wheel and tyre."""
ESTIMATE = {
    "section_width_mm": marked_as("estimate", "section width"),
    "tread_width_mm": marked_as("estimate", "tread width"),
    "shoulder_drop_mm": marked_as("estimate", "shoulder drop"),
    "sidewall_skin_mm": marked_as("estimate", "sidewall skin"),
    "belt_depth_mm": marked_as("estimate", "belt depth"),
    "belt_inset_mm": marked_as("estimate", "belt inset"),
    "flange_radius_mm": marked_as("estimate", "flange radius"),
    "overall_width_mm": marked_as("estimate", "overall width"),
    "overall_diameter_mm": marked_as("estimate", "overall diameter"),
    "pad_diameter_mm": marked_as("estimate", "pad diameter"),
    "bore_diameter_mm": marked_as("estimate", "bore diameter"),
    "spoke_face": marked_as("estimate", "spoke face"),
    "spoke_back": marked_as("estimate", "spoke back"),
    "cap": marked_as("estimate", "cap"),
    "valve": marked_as("estimate", "valve"),
    "barrel": marked_as("estimate", "barrel"),
}
"""Figures that are estimated where nobody measured them, by their names in the sums."""
LOAD_CASE = {
    "braking": marked_as("load case", "braking"),
    "driving": marked_as("load case", "driving"),
    "cornering, outer wheel": marked_as("load case", "cornering, outer wheel"),
    "cornering, inner wheel": marked_as("load case", "cornering, inner wheel"),
    "kerb": marked_as("load case", "kerb"),
}
GRADE = {
    "hard points": marked_as("motion", "hard points"),
    "measured motion": marked_as("motion", "measured motion"),
    "class guess": marked_as("motion", "class guess"),
}
"""What a motion rests on."""
NEIGHBOUR = {
    "body": marked_as("neighbour", "body"),
    "carried": marked_as("neighbour", "carried"),
    "hose": marked_as("neighbour", "hose"),
    "caliper": marked_as("neighbour", "caliper"),
}
"""Kinds of things around a wheel, in a word."""
BREACH = {
    "refused": marked_as("breach", "refused"),
    "approval needed": marked_as("breach", "approval needed"),
    "declaration needed": marked_as("breach", "declaration needed"),
    "reject at inspection": marked_as("breach", "reject at inspection"),
}
"""What a breach of a rule leads to."""
FACT = {
    "frame": marked_as("fact", "frame"),
    "category": marked_as("fact", "category"),
    "axle": marked_as("fact", "axle"),
    "axle_original": marked_as("fact", "axle_original"),
    "approval": marked_as("fact", "approval"),
    "seats": marked_as("fact", "seats"),
    "wheel": marked_as("fact", "wheel"),
    "tyre": marked_as("fact", "tyre"),
}
"""Facts a rule may hang on."""
SEEN = {
    "read": marked_as("seen", "read"),
    "memory": marked_as("seen", "memory"),
    "computed": marked_as("seen", "computed"),
    "secondary copy": marked_as("seen", "secondary copy"),
    "secondary": marked_as("seen", "secondary"),
    "memory+computed": marked_as("seen", "memory+computed"),
    "read+memory": marked_as("seen", "read+memory"),
    "read+memory+computed": marked_as("seen", "read+memory+computed"),
    "secondary+memory": marked_as("seen", "secondary+memory"),
    "common practice": marked_as("seen", "common practice"),
}
"""How a figure was seen."""
LINK = {
    "upper wishbone front": marked_as("link", "upper wishbone front"),
    "upper wishbone rear": marked_as("link", "upper wishbone rear"),
    "upper wishbone hinge line": marked_as("link", "upper wishbone hinge line"),
    "lower wishbone front": marked_as("link", "lower wishbone front"),
    "lower wishbone rear": marked_as("link", "lower wishbone rear"),
    "lower wishbone hinge line": marked_as("link", "lower wishbone hinge line"),
    "tie rod": marked_as("link", "tie rod"),
    "strut": marked_as("link", "strut"),
    "strut line": marked_as("link", "strut line"),
    "hinge line": marked_as("link", "hinge line"),
    "inner pivot": marked_as("link", "inner pivot"),
    "outer pivot": marked_as("link", "outer pivot"),
    "left mount": marked_as("link", "left mount"),
    "right mount": marked_as("link", "right mount"),
    "mounts sideways": marked_as("link", "mounts sideways"),
    "beam": marked_as("link", "beam"),
    "Watt crank": marked_as("link", "Watt crank"),
    "Watt link a": marked_as("link", "Watt link a"),
    "Watt link b": marked_as("link", "Watt link b"),
}
"""What holds a wheel, by the names the sums give it; a link somebody named keeps its name."""
SUSPENSION = {
    "double wishbone": marked_as("suspension", "double wishbone"),
    "strut": marked_as("suspension", "strut"),
    "five link": marked_as("suspension", "five link"),
    "multi-link": marked_as("suspension", "multi-link"),
    "swing arm": marked_as("suspension", "swing arm"),
    "twist beam": marked_as("suspension", "twist beam"),
    "live axle": marked_as("suspension", "live axle"),
    "unknown": marked_as("suspension", "unknown"),
}
"""Kinds of suspension."""
DUTY = {"duty": marked_as("duty", "duty"), "definition": marked_as("duty", "definition")}
REVISION = {
    "new": marked_as("revision", "new"),
    "entry": marked_as("revision", "entry"),
    "file": marked_as("revision", "file"),
    "undo": marked_as("revision", "undo"),
    "copy": marked_as("revision", "copy"),
    "settled": marked_as("revision", "settled"),
}
"""How a revision came about."""
DIRECTION = {
    "outboard": marked_as("direction", "outboard"),
    "inboard": marked_as("direction", "inboard"),
    "forward": marked_as("direction", "forward"),
    "rearward": marked_as("direction", "rearward"),
    "up": marked_as("direction", "up"),
    "down": marked_as("direction", "down"),
}
STANDING = {
    "flush": marked_as("standing", "flush"),
    "tuck": marked_as("standing", "tuck"),
    "poke": marked_as("standing", "poke"),
}
MATERIAL = {
    "aluminium": marked_as("material", "aluminium"),
    "alloy": marked_as("material", "alloy"),
    "steel": marked_as("material", "steel"),
    "iron": marked_as("material", "iron"),
}
FASTENER = {
    "bolt": marked_as("fastener", "bolt"),
    "nut": marked_as("fastener", "nut"),
    "stud": marked_as("fastener", "stud"),
}
METHODS = {
    "calliper": marked("calliper"),
    "depth gauge": marked("depth gauge"),
    "blocks": marked("blocks between"),
    "feeler": marked("feeler gauge"),
    "rule": marked("rule"),
    "tape": marked("tape"),
    "plumb line": marked("plumb line"),
    "modelling clay": marked("modelling clay"),
    "turns counted": marked("turns counted"),
    "photograph": marked("photograph with a rule"),
    "drawing": marked("drawing"),
}
"""Ways of reading with their doubt in `hubwright.quantities.reading`; the words of those a person chooses from."""


def part_word(part: str) -> str:
    """A piece of wheel or tyre."""
    return word("part", PART, part)


def estimate_word(name: str) -> str:
    """An estimated figure, such as ``tread width`` for ``tread_width_mm``."""
    return word("estimate", ESTIMATE, name) if name in ESTIMATE else name.removesuffix("_mm").replace("_", " ")


def load_case_word(case: str) -> str:
    """A load case."""
    return word("load case", LOAD_CASE, case)


def grade_word(grade: str) -> str:
    """What a motion rests on."""
    return word("motion", GRADE, grade)


def neighbour_word(kind: str) -> str:
    """Kind of a thing around a wheel, in a word."""
    return word("neighbour", NEIGHBOUR, kind)


def breach_word(breach: str) -> str:
    """What a breach of a rule leads to."""
    return word("breach", BREACH, breach)


def fact_word(fact: str) -> str:
    """A fact a rule may hang on."""
    return word("fact", FACT, fact)


def seen_word(how_seen: str) -> str:
    """How a figure was seen: a code, or words of a table."""
    return say_as("seen", SEEN[how_seen]) if how_seen in SEEN else say(how_seen)


def standing_word(standing: str) -> str:
    """``flush``, ``tuck``, ``poke``."""
    return word("standing", STANDING, standing)


def material_word(material: str) -> str:
    """What a part is made of."""
    return word("material", MATERIAL, material)


def fastener_word(kind: str) -> str:
    """``bolt``, ``nut``, ``stud``."""
    return word("fastener", FASTENER, kind)


def suspension_word(kind: str) -> str:
    """A kind of suspension."""
    return word("suspension", SUSPENSION, kind)


def link_word(name: str) -> str:
    """A link or pivot of a suspension."""
    return word("link", LINK, name)


def duty_word(kind: str) -> str:
    """``duty`` or ``definition``."""
    return word("duty", DUTY, kind)


def revision_word(kind: str) -> str:
    """How a revision came about."""
    return word("revision", REVISION, kind)


def direction_word(direction: str) -> str:
    """Where something lies of the wheel."""
    return word("direction", DIRECTION, direction)


def method_word(method: str) -> str:
    """A way of reading: one of the usual ones, or as somebody wrote it."""
    return say(METHODS[method]) if method in METHODS else method
