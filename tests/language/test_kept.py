"""A text kept as data is said again in the language of whoever reads it."""

from __future__ import annotations

import json

import pytest

from hubwright.errors import Fault
from hubwright.language import say, speaking_in
from hubwright.language.kept import kept, said_again
from hubwright.language.place_words import place_word, work_word
from hubwright.store.rows import faults_of, faults_text


def test_a_text_kept_in_one_language_is_read_in_another() -> None:
    with speaking_in("de"):
        data = json.loads(json.dumps(kept(say("at most {size} MiB", size=3))))
    assert said_again(data) == "at most 3 MiB"


def test_texts_inside_a_text_are_said_again_too() -> None:
    with speaking_in("de"):
        data = json.loads(json.dumps(kept(say("{words} and {last}", words=say("Front axle"), last="x"))))
    assert data["shown"].startswith("Vorderachse")
    assert said_again(data) == "Front axle and x"


def test_what_is_no_text_of_the_program_keeps_the_words_it_had() -> None:
    strange = {"shown": "as it was", "text": "{a.__class__} and more", "about": "", "values": {"a": 1}}
    missing = {"shown": "as it was", "text": "at most {size} MiB", "about": "", "values": {"other": 1}}
    assert [said_again(one) for one in ("as it was", strange, missing)] == ["as it was"] * 3
    with pytest.raises(ValueError, match="no kept text"):
        said_again({"text": "nothing shown"})


def test_faults_of_an_entry_put_aside_are_told_in_the_language_of_who_decides() -> None:
    with speaking_in("de"):
        text = faults_text([Fault("car.year", say("a whole number"), "'x'", say("Measure it before choosing."))])
        assert str(faults_of(text)[0]) == "car.year: verlangt: eine ganze Zahl; angegeben: 'x'. Vor der Wahl messen."
    assert str(faults_of(text)[0]) == "car.year: wanted a whole number; given 'x'. Measure it before choosing."


def test_faults_put_aside_by_older_programs_are_told_as_they_were() -> None:
    old = '[{"field": "a", "wanted": "a number", "given": "x", "todo": "", "line": 3}]'
    assert faults_of(old) == (Fault("a", "a number", "x", "", 3),)


def test_usual_places_are_worded_and_others_stay_as_typed() -> None:
    with speaking_in("de"):
        assert place_word("arch lip, inner edge") == "Radlauf, innere Kante"
        assert work_word("roll the arch lip") == "Radlaufkante umlegen"
        assert place_word("edge of the spring seat") == "edge of the spring seat"
