"""At least 300 random single edits: each that matters shows in its class with its cause, no other shows."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.diff.random_edits import edits, faults_of

WANTED = 300
KINDS = {
    "number",
    "unit",
    "as written",
    "layout",
    "removed",
    "renamed",
    "title",
    "order",
    "step",
    "flag",
}


@pytest.mark.slow
def test_every_edit_that_matters_shows_and_no_other() -> None:
    judged, unread, wrong = Counter[str](), 0, []
    for edit in edits(seed=20):
        faults = faults_of(edit)
        if faults is None:
            unread += 1
            continue
        judged[edit.kind] += 1
        wrong += [f"{edit.kind} {edit.file} {edit.route}: {fault}" for fault in faults]
        if judged.total() == WANTED:
            break
    assert wrong == []
    assert set(judged) == KINDS
    assert min(judged.values()) >= 5, judged
    assert unread < WANTED // 10
