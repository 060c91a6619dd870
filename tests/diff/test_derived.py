"""What is derived from a hold's data, compared beside differences of the data: the laws hold for it too."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from functools import cache

import pytest

from procgen.diff.compare import differences
from procgen.results.difference import Difference, DifferenceClass, DifferenceKind
from procgen.results.page import StationSite
from tests.diff.versions import AFT, edited, files, told, whole_site

NO_OVERRIDE = (AFT, "override: [in]\n    moved-by: hand", "moved-by: hand")
MORE = (AFT, '"43": {held-by: [lock-42, lock-43, rails], max: {K: 1134 kg}', "1100 kg")
EDITS: Mapping[str, Mapping[str, str]] = {
    "none": files(),
    "no override": edited(NO_OVERRIDE),
    "lower limit": edited((AFT, MORE[1], MORE[1].replace("1134 kg", MORE[2]))),
    "lock renamed": {
        **files(),
        AFT: files()[AFT].replace("lock-42", "middle-lock").replace("lock 42", "middle lock"),
    },
    "bay renamed": {**files(), AFT: re.sub(r'"42"', '"52"', files()[AFT])},
}


@cache
def made(edit: str) -> StationSite:
    """What is published with an edit."""
    return whole_site(EDITS[edit])


def _found(was: str, now: str) -> list[Difference]:
    return list(differences(made(was), made(now)))


def _derived(found: list[Difference]) -> list[Difference]:
    return [one for one in found if re.search(r"/(out-of-service|recoveries|tables)/", one.identity)]


def test_an_answer_that_gets_graver_shows_beside_the_edit_of_the_data_and_less_grave_the_other_way() -> None:
    there, back = _found("none", "no override"), _found("no override", "none")
    assert "tightened removed SR-AFT/restraints/inner-guide/override/in" in told(there)
    for found, classed in ((there, DifferenceClass.TIGHTENED), (back, DifferenceClass.LOOSENED)):
        cells = [one for one in found if "/out-of-service/" in one.identity]
        assert [one.identity for one in cells] == [
            "SR-AFT/out-of-service/inner-guide-down/loading",
            "SR-AFT/out-of-service/inner-guide-missing/loading",
        ]
        assert {one.classed for one in cells} == {classed}
        assert "as before" in str((cells[0].was, cells[0].now))


@pytest.mark.parametrize(("was", "now"), [("lower limit", "none"), ("none", "lower limit")])
def test_a_limit_is_told_once_and_its_smaller_and_larger_numbers_everywhere_with_it(
    was: str, now: str
) -> None:
    found = _found(was, now)
    way = DifferenceClass.LOOSENED if now == "none" else DifferenceClass.TIGHTENED
    assert {one.classed for one in found} == {way}
    assert _derived(found) == []
    assert any(anchor.element.startswith("out-of-service:") for one in found for anchor in one.anchors)


@pytest.mark.parametrize(
    ("edit", "identities"),
    [
        ("lock renamed", ["SR-AFT/restraints/middle-lock/renamed", "SR-AFT/restraints/middle-lock/title"]),
        ("bay renamed", ["SR-AFT/bays/52/renamed"]),
    ],
)
def test_what_is_renamed_throughout_is_told_once_with_tables_matrices_and_ways_out(
    edit: str, identities: list[str]
) -> None:
    assert [one.identity for one in _found("none", edit)] == identities


@pytest.mark.parametrize("edit", list(EDITS))
def test_the_laws_hold_with_everything_that_is_derived(edit: str) -> None:
    assert _found(edit, edit) == []
    there, back = _found("none", edit), _found(edit, "none")
    assert Counter(one.identity for one in there).total() == len({one.identity for one in there})
    for kind, other in (
        (DifferenceKind.ADDED, DifferenceKind.REMOVED),
        (DifferenceKind.REMOVED, DifferenceKind.ADDED),
    ):
        assert {one.identity for one in there if one.kind is kind} == {
            one.identity for one in back if one.kind is other
        }
