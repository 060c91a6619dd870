"""Whatever a slip of the hand does to a file, the check answers with findings and never fails itself."""

from __future__ import annotations

import re
from collections.abc import Mapping

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from procgen.report import findings_json, findings_text
from tests.whole_check import example_files, findings_of

WORDS = re.compile(r"[\w./-]+")
STRANGE = ("", "outside", "0", "-1", "true", "{}", "[]", "~", "no", '"', "\t")


@st.composite
def slips(draw: st.DrawFn) -> Mapping[str, str]:
    """The example with one to three lines lost, doubled, moved, or with a word of them exchanged."""
    files = dict(example_files())
    for _ in range(draw(st.integers(1, 3))):
        file = draw(st.sampled_from(sorted(files)))
        lines = files[file].split("\n")
        index = draw(st.integers(0, len(lines) - 1))
        what = draw(st.sampled_from(("word", "lose", "double", "move")))
        if what == "word":
            words = list(WORDS.finditer(lines[index]))
            if words:
                word = draw(st.sampled_from(words))
                put = draw(st.sampled_from((*STRANGE, *WORDS.findall(files[file]))))
                lines[index] = lines[index][: word.start()] + put + lines[index][word.end() :]
        elif what == "double":
            lines.insert(index, lines[index])
        else:
            line = lines.pop(index)
            if what == "move":
                lines.insert(draw(st.integers(0, len(lines))), line)
        files[file] = "\n".join(lines)
    return files


@settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck))
@given(slips())
def test_the_check_answers(files: Mapping[str, str]) -> None:
    loaded, findings = findings_of(files)
    told = findings_text(findings, loaded.documents)
    assert all(finding.message in told for finding in findings)
    assert findings_json(findings, loaded.documents).startswith("{")
