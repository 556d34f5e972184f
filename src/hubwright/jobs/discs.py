"""One judged disc as it stands in the answer."""

from __future__ import annotations

from hubwright.checks import joints
from hubwright.findings import Verdict
from hubwright.jobs.answer import DiscAnswer
from hubwright.selection.candidates import BESIDE, Candidate, Status


def disc_answer(candidate: Candidate) -> DiscAnswer:
    """A candidate with one sentence per question that keeps it from being clean."""
    wanted = {Status.REFUSED: (Verdict.FAIL,), Status.OPEN: (Verdict.UNKNOWN,), Status.CAUTION: (Verdict.CAUTION,)}
    reasons = [
        finding.sentence
        for finding in candidate.findings
        if finding.verdict in wanted.get(candidate.status, ())
        and (finding.question not in BESIDE or candidate.status is not Status.OPEN)
        and (finding.question != joints.QUESTION or joints.counts(finding))
    ]
    return DiscAnswer(
        candidate.thickness_mm,
        candidate.disc.kind,
        candidate.disc.name,
        candidate.status.value,
        tuple(reasons),
        candidate.findings,
        candidate.every,
        candidate.choices,
        2 * candidate.thickness_mm,
        candidate.released,
    )
