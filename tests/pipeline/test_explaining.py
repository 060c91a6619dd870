"""Causes where two holds of a station, or one hold at two stations, are compared."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from procgen.pipeline.deriving import derive_site
from procgen.pipeline.explaining import compared
from procgen.report.differences import differences_text
from procgen.results.difference import CauseKind, Comparison, EditPlace, Reviewed, Version
from tests.support import demo_files

FLEET = "fleet/fleet.yaml"
FWD, M9, AFT, TR = (f"fleet/holds/{name}.yaml" for name in ("MR-FWD", "MR-FWD-M9", "SR-AFT", "TR-FWD"))
HERE, THERE = "N4T/station.yaml", "K1B/station.yaml"


def only(files: Mapping[str, str], hold: str) -> Version:
    """One hold of what the files publish."""
    site = derive_site(files, {hold})
    assert site is not None
    return Version(f"{site.station.code}, {hold}", site, files, "rules", hold)


def with_holds(station: str, holds: str, *files: str) -> Mapping[str, str]:
    """A station of the demonstration that works some holds, with the files that it needs."""
    texts = {file: demo_files()[file] for file in (FLEET, station, *files)}
    head, _, rest = texts[station].partition("holds: [")
    return {**texts, station: f"{head}holds: [{holds}]{rest.partition(']')[2]}"}


def lines(found: Comparison, identity: str) -> list[EditPlace]:
    """The places of everything that caused a difference."""
    (one,) = (one for one in found.differences if one.identity == identity)
    edits = {edit.number: edit for edit in found.edits}
    return [place for cause in one.causes for number in cause.edits for place in edits[number].places]


def line_of(text: str, part: str) -> int:
    (found,) = (number for number, line in enumerate(text.splitlines(), start=1) if part in line)
    return found


def kinds(found: Comparison) -> set[CauseKind]:
    return {cause.kind for one in found.differences for cause in one.causes}


def test_two_holds_of_one_station_name_the_lines_of_both_descriptions() -> None:
    files = with_holds(HERE, "MR-FWD, MR-FWD-M9", FWD, M9)
    found = compared(only(files, "MR-FWD"), only(files, "MR-FWD-M9"))
    assert found.differences
    for identity, part in (
        ("MR-FWD-M9/zones/forward-hold/combined", "  forward-hold: {name: forward hold"),
        ("MR-FWD-M9/positions/23/max-mass/K", '  "23": {held-by:'),
        ("MR-FWD-M9/limits/23/PKC", '  "23": {held-by:'),
        ("MR-FWD-M9/cumulative/from-forward/points/length-139-25", "- {x: 5.56 m"),
    ):
        (place,) = lines(found, identity)
        assert (place.was_file, place.was_line) == (FWD, line_of(files[FWD], part)), identity
        assert (place.file, place.now_line) == (M9, line_of(files[M9], part)), identity
    assert CauseKind.PROGRAM not in kinds(found)
    assert {place.file for edit in found.edits for place in edit.places} == {M9}
    (title,) = lines(found, "MR-FWD-M9/title")
    assert (title.was_line, title.now_line) == (4, 4)
    text = differences_text(
        Reviewed(found, "", {one.identity: "" for one in found.differences}, {}, frozenset())
    )
    line = line_of(files[M9], '  "23": {held-by:'), line_of(files[FWD], '  "23": {held-by:')
    assert f"{M9}:{line[0]} (before: {FWD}:{line[1]})  positions.23.max.K: 1000 kg → 1134 kg" in text


@cache
def across() -> Comparison:
    """One hold at two stations that work other holds too, one with a procedure of its own."""
    procedure = next(file for file in demo_files() if file.startswith("K1B/procedures/"))
    was = with_holds(THERE, "TR-FWD, SR-AFT", AFT, TR, procedure)
    now = with_holds(HERE, "SR-AFT, MR-FWD", AFT, FWD)
    return compared(only(was, "SR-AFT"), only(now, "SR-AFT"))


def test_one_hold_at_two_stations_names_the_line_that_makes_each_do_otherwise() -> None:
    found = across()
    wind = line_of(demo_files()[THERE], "wind:")
    for identity in (
        "SR-AFT/checks/wind-within-limit/done-when",
        "SR-AFT/doors/aft-door/wind/opening",
        "station/wind",
    ):
        (place,) = lines(found, identity)
        assert (place.route, place.file, place.was_line) == (("wind",), THERE, wind), identity
    (place,) = lines(found, "SR-AFT/pages/sr-aft-two-units")
    assert place.file.startswith("K1B/procedures/")
    (place,) = lines(found, "station/mass-unit")
    assert (place.was_file, place.file) == (THERE, HERE)
    assert [place.route for place in lines(found, "station/allowances/stow")] == [("allowances", "stow")]
    edits = {edit.number: edit.first.route[-1:] for edit in found.edits}
    for one in found.differences:
        for cause in one.causes:
            assert ("station",) not in {edits[number] for number in cause.edits}, one.identity
            # What a list of copies loses shifts the rest, and a revision is told as one thing.
            joint = one.identity in ("station/distribution/2", "station/revision")
            assert joint or len(cause.edits) == 1, one.identity
    (copy,) = lines(found, "station/distribution/1/copy")
    assert (copy.was, copy.now) == ("paper, in the stand office", "paper, in the cargo office")


def test_a_station_and_a_hold_with_other_names_still_name_single_lines() -> None:
    was = with_holds(THERE, "SR-AFT", AFT)
    text = was[AFT].replace("hold: SR-AFT", "hold: SR-AFX").replace("combined: 4000 kg", "combined: 4100 kg")
    other = {"fleet/holds/SR-AFX.yaml": text, FLEET: was[FLEET]}
    other[HERE] = was[THERE].replace("K1B", "N4T").replace("SR-AFT", "SR-AFX").replace("open: 50", "open: 45")
    found = compared(only(was, "SR-AFT"), only(other, "SR-AFX"))
    (place,) = lines(found, "SR-AFX/zones/aft-hold/combined")
    assert (place.was_file, place.file, place.now) == (AFT, "fleet/holds/SR-AFX.yaml", "4100 kg")
    (place,) = lines(found, "SR-AFX/doors/aft-door/wind/open")
    assert (place.was_file, place.file, place.now) == (THERE, HERE, "45 kt")
    assert [place.route for place in lines(found, "SR-AFX/renamed")] == [("hold",)]
