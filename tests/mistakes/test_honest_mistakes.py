"""Each mistake is found, at the right line, in words that tell what to do."""

from __future__ import annotations

import pytest

from procgen.report import findings_text
from tests.mistakes.mistake import Mistake
from tests.mistakes.table import MISTAKES
from tests.support import demo_files
from tests.whole_check import edited, findings_of, line_of


def test_the_demonstration_is_clean() -> None:
    findings = findings_of(demo_files())[1]
    assert findings == (), "\n".join(finding.message for finding in findings)


def test_no_mistake_stands_twice() -> None:
    assert len({mistake.name for mistake in MISTAKES}) == len(MISTAKES) >= 30


@pytest.mark.parametrize("mistake", MISTAKES, ids=[mistake.name for mistake in MISTAKES])
def test_the_mistake_is_found(mistake: Mistake) -> None:
    files = edited(demo_files(), mistake.file, mistake.find, mistake.put)
    loaded, findings = findings_of(files)
    told = findings_text(findings, loaded.documents)
    mine = [finding for finding in findings if finding.rule == mistake.rule]
    assert mine, told
    file = mistake.where or mistake.file
    lines = files[file].splitlines()
    here = [finding for finding in mine if finding.place.file == file]
    there = [finding for finding in here if mistake.line in lines[line_of(loaded, finding) - 1]]
    assert there, told
    words = f"{there[0].message} {there[0].suggestion}"
    assert all(word in words for word in mistake.words), words
    assert there[0].suggestion, told
