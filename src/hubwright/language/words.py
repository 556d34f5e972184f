"""Codes of the program as words: sides, verdicts, kinds. In data they stay English codes and are spoken on the way out."""

from __future__ import annotations

from hubwright.language import marked_as, say, say_as
from hubwright.language.said import Said, swapped

SIDE = {
    "left": marked_as("side", "left"),
    "right": marked_as("side", "right"),
    "both": marked_as("side", "both sides"),
    "": "",
}
AXLE = {"front": marked_as("axle", "front"), "rear": marked_as("axle", "rear")}
VERDICT = {
    "pass": marked_as("verdict", "pass"),
    "caution": marked_as("verdict", "caution"),
    "unknown": marked_as("verdict", "unknown"),
    "fail": marked_as("verdict", "fail"),
}
FITS = {
    "pass": marked_as("verdict", "fits"),
    "caution": marked_as("verdict", "caution"),
    "unknown": marked_as("verdict", "not known"),
    "fail": marked_as("verdict", "no"),
}
"""A verdict as the answer to one question put to one disc."""
LAWFUL = {
    "pass": marked_as("law", "kept"),
    "caution": marked_as("law", "papers"),
    "unknown": marked_as("law", "open"),
    "fail": marked_as("law", "no"),
}
STATUS = {
    "valid": marked_as("status", "valid"),
    "caution": marked_as("status", "caution"),
    "not known": marked_as("status", "not known"),
    "refused": marked_as("status", "refused"),
}
STAGE = {
    "draft": marked_as("stage", "draft"),
    "assessed": marked_as("stage", "assessed"),
    "released": marked_as("stage", "released"),
    "waiting for re-torque": marked_as("stage", "waiting for re-torque"),
    "came back": marked_as("stage", "came back"),
    "closed": marked_as("stage", "closed"),
}
EVIDENCE = {
    "measured with the disc fitted": marked_as("evidence", "measured with the disc fitted"),
    "measured bare": marked_as("evidence", "measured bare"),
    "predicted from measurements": marked_as("evidence", "predicted from measurements"),
    "stated by a customer": marked_as("evidence", "stated by a customer"),
    "nothing measured": marked_as("evidence", "nothing measured"),
}
QUESTION = {
    "clearance": marked_as("question", "clearance"),
    "brake": marked_as("question", "brake"),
    "centring": marked_as("question", "centring"),
    "fastener": marked_as("question", "fastener"),
    "law": marked_as("question", "law"),
    "policy": marked_as("question", "policy"),
    "joint": marked_as("question", "joint"),
    "torque": marked_as("question", "torque"),
    "load": marked_as("question", "load"),
    "effects": marked_as("question", "effects"),
    "package": marked_as("question", "package"),
    "other wheels": marked_as("question", "other wheels"),
}
KIND = {
    "plain": marked_as("disc", "plain"),
    "lipped": marked_as("disc", "lipped"),
    "bolted": marked_as("disc", "bolted"),
    "any": marked_as("disc", "any"),
    "body": marked_as("point", "bodywork"),
    "carried": marked_as("point", "a part carried by the knuckle"),
    "hose": marked_as("point", "a hose, cable or steering part"),
    "caliper": marked_as("point", "caliper"),
}
"""Kinds of discs and of the things around a wheel."""
ROOM = {"outside": marked_as("room", "outside"), "inside": marked_as("room", "inside")}
USE = {
    "street": marked_as("use", "street"),
    "track": marked_as("use", "track"),
    "laden": marked_as("use", "laden"),
    "off-road": marked_as("use", "off-road"),
}
SEAT = {
    "cone": marked_as("seat", "cone"),
    "ball": marked_as("seat", "ball"),
    "flat": marked_as("seat", "flat"),
}


def side_word(side: str) -> str:
    """``left``, ``right``, ``both``."""
    return word("side", SIDE, side)


def axle_word(axle: str) -> str:
    """``front``, ``rear``."""
    return word("axle", AXLE, axle)


def axle_title(axle: str) -> str:
    """The axle as a title."""
    return say("Front axle") if axle == "front" else say("Rear axle")


def corner_title(axle: str, side: str) -> str:
    """The corner as a title."""
    titles = {
        ("front", "left"): say("Front left"),
        ("front", "right"): say("Front right"),
        ("rear", "left"): say("Rear left"),
        ("rear", "right"): say("Rear right"),
    }
    return titles[axle, side]


def verdict_word(verdict: str) -> str:
    """How a question ended."""
    return word("verdict", VERDICT, verdict)


def fits_word(verdict: str) -> str:
    """A verdict as the answer to one question put to one disc: ``fits``, ``no``."""
    return word("verdict", FITS, verdict)


def law_word(verdict: str) -> str:
    """A verdict of law: ``kept``, ``papers``."""
    return word("law", LAWFUL, verdict)


def status_word(status: str) -> str:
    """What becomes of one disc."""
    return word("status", STATUS, status)


def stage_word(stage: str) -> str:
    """How far a job has come."""
    return word("stage", STAGE, stage)


def evidence_word(evidence: str) -> str:
    """What a clearance rests on."""
    return word("evidence", EVIDENCE, evidence)


def question_word(question: str) -> str:
    """Which window asked."""
    return word("question", QUESTION, question)


def kind_word(kind: str) -> str:
    """A kind of disc, or of a thing near the wheel."""
    return word("disc" if kind in ("plain", "lipped", "bolted", "any") else "point", KIND, kind)


def room_word(room: str) -> str:
    """``outside``, ``inside``."""
    return word("room", ROOM, room)


def use_word(use: str) -> str:
    """What the car is used for."""
    return word("use", USE, use)


def seat_word(seat: str) -> str:
    """Shape of a seat."""
    return word("seat", SEAT, seat)


def word(about: str, words: dict[str, str], code: str) -> str:
    """The word of a code, from a table of words marked as ``about``; any other code is said as it stands."""
    text = words.get(str(code))
    return str(code) if text is None else say_as(about, text) if text else ""


def of_both_sides(text: str) -> str:
    """A sentence about one side said of both."""
    return str(swapped(text, _both))


def _both(text: Said) -> str | None:
    return side_word("both") if text.about == "side" and text.text in ("left", "right") else None
