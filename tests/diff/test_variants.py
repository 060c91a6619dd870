"""A changed effectivity is told aircraft by aircraft, and classed by what changes for each."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

import pytest

from procgen.pipeline.checking import check
from procgen.pipeline.deriving import derive_site
from procgen.pipeline.recording import basis_of
from procgen.results.difference import Comparison
from tests.diff.versions import FLEET, explain, told
from tests.support import demo_files, load_texts

STATION = "N4T/station.yaml"
ONE = "fleet/holds/MR-FWD.yaml"
OTHER = "fleet/holds/MR-FWD-M9.yaml"


@cache
def _files() -> Mapping[str, str]:
    """One station that works the two variants of one hold."""
    texts = {file: demo_files()[file] for file in (FLEET, ONE, OTHER, STATION)}
    head, _, rest = texts[STATION].partition("holds: [")
    return {**texts, STATION: f"{head}holds: [MR-FWD, MR-FWD-M9]{rest.partition(']')[2]}"}


def _edited(*edits: tuple[str, str, str]) -> Mapping[str, str]:
    texts = dict(_files())
    for file, find, put in edits:
        assert texts[file].count(find) == 1, (file, find)
        texts[file] = texts[file].replace(find, put)
    return texts


def _files_of_causes(found: Comparison) -> set[str]:
    numbers = {number for one in found.differences for cause in one.causes for number in cause.edits}
    return {place.file for edit in found.edits if edit.number in numbers for place in edit.places}


def test_an_aircraft_that_gets_a_looser_variant_is_loosened_and_back_is_tightened() -> None:
    modified = _edited((FLEET, "Q4-R2: AS-BUILT", "Q4-R2: MOD-9"))
    found = explain(_files(), modified)
    assert told(found.differences) == [
        "loosened changed MR-FWD/applies-to/Q4-R2",
        "changed changed aircraft/SKUA-180/registrations/Q4-R2/configuration",
    ]
    first = found.differences[0]
    assert first.was is not None
    assert first.now is not None
    assert (first.was.text, first.now.text) == ("MR-FWD", "MR-FWD-M9")
    assert first.causes
    assert _files_of_causes(found) == {FLEET}
    back = explain(modified, _files())
    assert told(back.differences)[0] == "tightened changed MR-FWD/applies-to/Q4-R2"


def test_the_same_aircraft_named_otherwise_are_no_difference() -> None:
    same = _edited((OTHER, "configurations: [MOD-9]", "registrations: [Q4-R3, Q4-R4]"))
    assert told(explain(_files(), same).differences) == []


def test_effectivity_moved_by_name_is_told_with_its_file() -> None:
    moved = _edited(
        (ONE, "configurations: [AS-BUILT]", "configurations: [AS-BUILT], registrations: [Q4-R3]"),
        (OTHER, "configurations: [MOD-9]", "registrations: [Q4-R4]"),
    )
    found = explain(_files(), moved)
    assert told(found.differences) == ["tightened changed MR-FWD/applies-to/Q4-R3"]
    assert _files_of_causes(found) <= {ONE, OTHER}
    assert _files_of_causes(found)


def test_an_aircraft_left_without_a_page_is_loosened() -> None:
    left = _edited((OTHER, "configurations: [MOD-9]", "registrations: [Q4-R4]"))
    found = explain(_files(), left)
    assert told(found.differences) == ["loosened changed MR-FWD/applies-to/Q4-R3"]
    assert "no page tells any more" in found.differences[0].why


@pytest.mark.parametrize(
    ("find", "put", "expected"),
    [
        (
            "      Q4-R4: MOD-9\n",
            "      Q4-R4: MOD-9\n      Q4-R5: MOD-9\n",
            "loosened added aircraft/SKUA-180/registrations/Q4-R5",
        ),
        ("      Q4-R4: MOD-9\n", "", "tightened removed aircraft/SKUA-180/registrations/Q4-R4"),
        ("title: as delivered", "title: as it left the works", None),
    ],
)
def test_the_fleet_list_itself(find: str, put: str, expected: str | None) -> None:
    found = told(explain(_files(), _edited((FLEET, find, put))).differences)
    if expected is None:
        assert len(found) == 1
        assert found[0].startswith("wording ")
    else:
        assert found == [expected]


def test_told_apart_for_the_first_time() -> None:
    text = _files()[FLEET]
    start = text.index("    configurations:\n")
    end = text.index("  PETREL-500:")
    before = {
        **_edited((ONE, "effectivity: {configurations: [AS-BUILT]}\n", "")),
        FLEET: text[:start] + text[end:],
        STATION: _files()[STATION].replace("[MR-FWD, MR-FWD-M9]", "[MR-FWD]"),
    }
    del before[OTHER]
    found = told(explain(before, _files()).differences)
    assert "loosened changed MR-FWD/applies-to/Q4-R3" in found
    assert "loosened changed MR-FWD/applies-to/Q4-R4" in found
    assert not any("Q4-R1" in one or "Q4-R2" in one for one in found)
    assert "changed changed aircraft/SKUA-180/registrations" in found


def test_a_station_that_works_a_variant_only_is_recorded_so_that_it_can_be_derived_again() -> None:
    texts = dict(demo_files())
    texts[STATION] = texts[STATION].replace("[SR-AFT, MR-FWD, MR-FWD-M9]", "[MR-FWD-M9]")
    texts = {name: text for name, text in texts.items() if not name.startswith("N4T/procedures/")}
    checked = check(load_texts(texts), today="2026-06-01")
    inputs = basis_of(checked, checked.network.stations["N4T"]).inputs
    assert {ONE, OTHER} <= set(inputs)
    again = derive_site({file: one.text for file, one in inputs.items()})
    assert again is not None
    assert [hold.hold.name for hold in again.holds] == ["MR-FWD-M9"]
