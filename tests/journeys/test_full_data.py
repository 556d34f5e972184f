"""The estate on which everything was measured shows every section of the answer."""

from __future__ import annotations

import re

import pytest
from tests.checks.cases import EXAMPLE, full_answer, job_with
from typer.testing import CliRunner

from hubwright.cli.commands import app
from hubwright.findings import Verdict
from hubwright.jobs.answer import AxleAnswer
from hubwright.jobs.assess import assess
from hubwright.quantities.text import speaking


@pytest.fixture
def front() -> AxleAnswer:
    return full_answer().axle("front")


def test_15_mm_is_refused_nowhere_but_a_clean_5_mm_goes_before_it_for_the_turned_scrub_radius(
    front: AxleAnswer,
) -> None:
    status = {disc.thickness_mm: disc.status for disc in front.plan.discs}
    assert status == {5: "valid", 15: "caution", 20: "refused"}
    assert front.plan.recommended_mm == 5


def test_guesses_about_the_joint_leave_the_choice_of_the_disc_alone(front: AxleAnswer) -> None:
    best = front.plan.recommended
    assert best is not None
    joint = next(item for item in best.findings if item.question == "joint")
    assert joint.verdict is Verdict.CAUTION
    assert best.status == "valid" and best.reasons == ()


def test_both_the_recommended_and_the_wished_disc_have_their_effects(front: AxleAnswer) -> None:
    assert [disc.thickness_mm for disc in front.effects] == [5, 15]
    assert all(effect.known for disc in front.effects for effect in disc.effects)


def test_the_screw_head_and_the_fillet_of_the_20_mm_disc_are_found(front: AxleAnswer) -> None:
    thick = next(disc for disc in front.plan.discs if disc.thickness_mm == 20)
    sentences = " ".join(item.sentence for item in thick.every if item.verdict is Verdict.FAIL)
    assert "retaining screw lifts the disc 1.5 mm" in sentences and "fillet of 0.8 mm holds the disc" in sentences


def test_the_two_records_are_shown_with_their_conflict_and_the_rear_with_its_wrong_lubricant() -> None:
    answer = full_answer()
    assert "disagree" in answer.axle("front").torque.findings[0].sentence
    assert "copper grease" in answer.axle("rear").torque.findings[0].sentence


def test_the_whole_car_is_told_with_all_recommended_discs() -> None:
    names = [effect.name for effect in full_answer().together]
    assert names == ["load transfer, front", "load transfer, rear", "body roll", "balance", "static stability factor"]


def test_the_terminal_has_a_section_for_torque_and_one_for_what_else_changes() -> None:
    done = CliRunner().invoke(app, ["assess", str(EXAMPLE)], env={"COLUMNS": "120"})
    assert done.exit_code == 0
    for words in ("Torque", "On record: 120 N·m", "What else changes with 5 mm", "Load and speed", "The car with all"):
        assert words in done.stdout
    assert "ISO 281:2007" not in done.stdout
    explained = CliRunner().invoke(app, ["assess", str(EXAMPLE), "--explain"], env={"COLUMNS": "160"})
    assert "ISO 281:2007" in explained.stdout and "Coulomb friction" in explained.stdout


def test_in_inch_countries_lengths_and_moments_are_spoken_in_inches_and_pound_feet() -> None:
    with speaking("inch"):
        answer = assess(job_with())
    for axle in answer.axles:
        said = [effect.sentence for disc in axle.effects for effect in disc.effects]
        said += [step.text for disc in axle.effects for effect in disc.effects for step in effect.working]
        said += [item.sentence for disc in axle.plan.discs for item in disc.every if item.question == "joint"]
        for text in said:
            if "(read," in text or "printed:" in text:
                continue  # what makers print stays as printed
            assert not re.search(r"[0-9] mm\b|N·m", text.replace("g·mm", "")), text
