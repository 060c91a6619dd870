"""Differences by meaning: each kind of edit shows in its class, with its cause, and nothing else shows."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.diff import compare, difference_hash, input_edits, seal
from procgen.diff.causes import explained
from procgen.model.stated import Stated
from procgen.model.station import NO_REVISION
from procgen.pipeline.deriving import derive_site
from procgen.results.difference import (
    Cause,
    CauseKind,
    DifferenceClass,
    DifferenceKind,
    EditKind,
    Version,
)
from procgen.results.difference_rows import by_number, cause_words
from procgen.results.hold_tables import HoldTables, MissingRow
from procgen.results.load_limits import Most
from procgen.units import of
from tests.diff.versions import AFT, FLEET, PROCEDURE, STATION, edited, explain, files, told, version

ONE = [
    (
        AFT,
        "running: {value: 760 kg/m",
        "running: {value: 800 kg/m",
        ["loosened changed SR-AFT/floor/running"],
    ),
    (
        AFT,
        "running: {value: 760 kg/m",
        "running: {value: 43 lb/in",
        ["loosened changed SR-AFT/floor/running"],
    ),
    (AFT, "combined: 4000 kg", "combined: 8 818 lb", ["tightened changed SR-AFT/zones/aft-hold/combined"]),
    (
        AFT,
        "  mid-frames: {name: frames 40 to 44, x: [12.20 m, 14.40 m], combined: 1500 kg, source: WB 5-3}\n",
        "",
        ["loosened removed SR-AFT/zones/mid-frames"],
    ),
    (
        AFT,
        'under: ["44"], run-by: stick, go: [in, out], speed: 0.3 m/s, pull: 900 N',
        'under: ["44"], run-by: stick, go: [in, out], speed: 0.3 m/s, pull: 1 kN',
        ["loosened changed SR-AFT/drives/door-drive/pull"],
    ),
    (
        AFT,
        "out-together: [[lock-41, lock-42]]\n",
        "",
        ["tightened removed SR-AFT/out-together/lock-41-lock-42"],
    ),
    (AFT, "in-pairs: true", "in-pairs: false", ["loosened changed SR-AFT/tie-down/in-pairs"]),
    (AFT, "wall: 90 mm", "wall: 80 mm", ["loosened changed SR-AFT/doors/aft-door/wall"]),
    (AFT, "up: 2.0 g", "up: 1.9 g", ["loosened changed SR-AFT/load-factors/by-direction/up"]),
    (STATION, "push: 0.4 m/s", "push: 0.5 m/s", ["loosened changed station/allowances/push"]),
    (STATION, "stow: 15 min", "stow: 14 min", ["loosened changed station/allowances/stow"]),
    (STATION, "check: 5 s", "check: 4 s", ["loosened changed station/allowances/check"]),
    (STATION, "title: Kellbridge", "title: Kellbrigg", ["wording changed station/title"]),
    (
        STATION,
        'how: "extension 210"',
        'how: "extension 201"',
        ["changed changed station/contacts/load-control/how"],
    ),
    (
        STATION,
        "  - {role: loading supervisor, how: radio channel 4}\n",
        "",
        ["loosened removed station/contacts/loading-supervisor"],
    ),
    (
        FLEET,
        "contour: H, max-gross: 1134 kg",
        "contour: H, max-gross: 1120 kg",
        [
            *(f"tightened changed SR-AFT/limits/{bay}/AKH" for bay in (41, 42, 43)),
            "tightened changed unit-types/AKH/max-gross",
        ],
    ),
    (
        AFT,
        "No live animals in this hold.",
        "Live animals in this hold.",
        ["loosened changed SR-AFT/notes/live-load/text"],
    ),
    (AFT, "title: Aft container hold", "title: Aft hold", ["wording changed SR-AFT/title"]),
    (
        AFT,
        "name: lock 41",
        "name: forward lock",
        ["wording renamed SR-AFT/restraints/lock-41/title"],
    ),
    (AFT, "at most 100 kg in", "at most 0.1 t in", []),
    (AFT, "4000 kg", "4 t", []),
    (AFT, "height: 1.24 m", "height: 1240 mm    # clear", []),
]


@pytest.mark.parametrize(("file", "find", "put", "expected"), ONE)
def test_an_edit_shows_in_its_class_with_its_cause(
    file: str, find: str, put: str, expected: list[str]
) -> None:
    texts = edited((file, find, put))
    found = explain(files(), texts)
    on_pages = [one for one in found.differences if one.page]
    assert sorted(told(set(found.differences) - set(on_pages))) == sorted(expected)
    assert {one.classed for one in on_pages} <= {one.classed for one in found.differences if not one.page}
    assert len(found.edits) == 1
    line = found.edits[0].first.now_line or found.edits[0].first.was_line
    side = texts if found.edits[0].first.now_line else files()
    assert (put or find).split("\n")[0].split(":")[0].strip(" -{") in side[file].splitlines()[line - 1]
    for one in found.differences:
        assert [(cause.kind, cause.edits) for cause in one.causes] == [(CauseKind.INPUT, (1,))]
    assert found.idle == (() if expected else (1,))


def test_an_added_thing_of_one_version_is_a_removed_one_of_the_other() -> None:
    texts = edited(
        (
            AFT,
            "  cargo-strap: {name: cargo strap, rating: 8.9 kN, source: GO 9-1}\n",
            "  belt: {name: belt, rating: 2 kN, source: GO 9-2}\n",
        ),
        (PROCEDURE, "  - warning: phone-near-fuelling\n", ""),
        (STATION, "  - {role: load control, how: ", "  - {role: fire brigade, how: "),
    )
    forth, back = explain(files(), texts), explain(texts, files())
    for one, other in ((forth, back), (back, forth)):
        added = {d.identity for d in one.differences if d.kind is DifferenceKind.ADDED}
        removed = {d.identity for d in other.differences if d.kind is DifferenceKind.REMOVED}
        assert added == removed
        assert added


def test_a_thing_renamed_throughout_is_one_difference_and_one_edit() -> None:
    texts = dict(files())
    for file in (AFT, PROCEDURE):
        texts[file] = texts[file].replace("lock-42", "middle-lock")
    found = explain(files(), texts)
    assert told(found.differences) == ["wording renamed SR-AFT/restraints/middle-lock/renamed"]
    assert [edit.kind for edit in found.edits] == [EditKind.RENAMED]
    assert len(found.edits[0].places) == texts[AFT].count("middle-lock") + texts[PROCEDURE].count(
        "middle-lock"
    )


def test_a_renamed_thing_that_changed_too_tells_both() -> None:
    texts = dict(files())
    for file in (AFT, PROCEDURE):
        texts[file] = texts[file].replace("lock-42", "middle-lock")
    texts[AFT] = texts[AFT].replace("name: lock 42", "name: middle lock")
    texts[AFT] = texts[AFT].replace("combined: 4000 kg", "combined: 4001 kg")
    found = explain(files(), texts)
    assert sorted(told(found.differences)) == [
        "loosened changed SR-AFT/zones/aft-hold/combined",
        "wording renamed SR-AFT/restraints/middle-lock/renamed",
        "wording renamed SR-AFT/restraints/middle-lock/title",
    ]
    causes = {one.identity.rsplit("/", 1)[-1]: one.causes[0].edits for one in found.differences}
    assert len(set(causes.values())) == 3


def test_a_renamed_position_is_told_once() -> None:
    texts = dict(files())
    for file in (AFT, PROCEDURE):
        texts[file] = texts[file].replace('"41"', '"40"').replace("u41", "u40")
    found = explain(files(), texts)
    assert told(found.differences) == ["changed renamed SR-AFT/bays/40/renamed"]


def test_a_step_that_moved_is_a_move() -> None:
    step = "  - check: {condition: unit-as-instructed, unit: u41}\n"
    before = "  - check: {condition: unit-serviceable, unit: u41}\n"
    found = explain(files(), edited((PROCEDURE, before + step, step + before)))
    assert [one.kind for one in found.differences] == [DifferenceKind.MOVED]
    assert found.differences[0].classed is DifferenceClass.CHANGED
    assert found.differences[0].was is not None
    assert found.differences[0].now is not None
    assert found.differences[0].was.step != found.differences[0].now.step


@pytest.mark.parametrize(
    ("find", "expected"),
    [
        ("  - check: locks-verified\n", "loosened removed"),
        ("  - check: {latched: aft-door, by: closer}\n", "loosened removed"),
        ("  - check: {latched: aft-door, by: second-person}\n", "loosened removed"),
        ("  - warning: phone-near-fuelling\n", "loosened removed"),
        ("  - raise: lock-41\n", "loosened removed"),
        ("  - report: damage-told\n", "loosened removed"),
        ("  - lower: sill-lock\n", "changed removed"),
    ],
)
def test_a_step_that_went_and_came_back(find: str, expected: str) -> None:
    shorter = edited((PROCEDURE, find, ""))
    gone = explain(files(), shorter).differences
    back = explain(shorter, files()).differences
    assert expected in [f"{one.classed} {one.kind}" for one in gone]
    assert max(gone, key=lambda one: one.kind is DifferenceKind.REMOVED).page == "sr-aft-two-units"
    if expected.startswith("loosened"):
        assert "tightened added" in [f"{one.classed} {one.kind}" for one in back]


def test_a_position_that_takes_one_more_type_is_loosened() -> None:
    find = '"43": {held-by: [lock-42, lock-43, rails], max: {K: 1134 kg}, contours: [H, C]'
    fewer = edited((AFT, find, find.replace("[H, C]", "[H]")))
    assert "tightened removed SR-AFT/limits/43/PKC" in told(explain(files(), fewer).differences)
    more = told(explain(fewer, files()).differences)
    assert "loosened added SR-AFT/limits/43/PKC" in more
    assert "loosened added SR-AFT/positions/43/contours/C" in more


def test_a_restraint_that_holds_a_position_no_more_is_loosened() -> None:
    find = '"44": {held-by: [lock-43, aft-stop, inner-guide, sill-lock, far-rail]'
    found = explain(files(), edited((AFT, find, find.replace("inner-guide, ", ""))))
    assert "loosened removed SR-AFT/positions/44/held-by/inner-guide" in told(found.differences)


def test_each_of_several_edits_has_its_own_differences() -> None:
    texts = edited(
        (AFT, "4000 kg", "4100 kg"),
        (AFT, "wall: 90 mm", "wall: 99 mm"),
        (STATION, "check: 5 s", "check: 6 s"),
    )
    found = explain(files(), texts)
    routes = {edit.number: edit.first.route[-1] for edit in found.edits}
    causes = {
        one.identity: [routes[n] for cause in one.causes for n in cause.edits] for one in found.differences
    }
    assert causes == {
        "SR-AFT/zones/aft-hold/combined": ["combined"],
        "SR-AFT/doors/aft-door/wall": ["wall"],
        "station/allowances/check": ["check"],
    }


def test_what_the_program_changed_is_told_as_such() -> None:
    was, now = version(files()), version(edited((AFT, "4000 kg", "4100 kg")))
    (hold,) = was.site.holds
    page = hold.pages[0]
    other = replace(
        was.site, holds=(replace(hold, pages=(replace(page, title="Old words"), *hold.pages[1:])),)
    )
    before = Version("K1B revision 1", other, was.inputs, "old rules")
    found = explained(compare(before, now), input_edits(before.inputs, now.inputs), derive_site)
    causes = {one.identity: one.causes[0].kind for one in found.differences}
    assert causes == {
        "SR-AFT/zones/aft-hold/combined": CauseKind.INPUT,
        "SR-AFT/pages/SR-AFT-loading/title": CauseKind.PROGRAM,
    }


def test_the_program_is_not_blamed_where_its_rules_are_the_same() -> None:
    was, now = version(files()), version(edited((AFT, "4000 kg", "4100 kg"), (STATION, "35 kt", "34 kt")))
    (hold,) = was.site.holds
    old = replace(hold.pages[0], title="Old words")
    before = replace(was, site=replace(was.site, holds=(replace(hold, pages=(old, *hold.pages[1:])),)))
    edits = input_edits(before.inputs, now.inputs)
    found = explained(compare(before, now), edits, derive_site)
    (one,) = [one for one in found.differences if one.identity == "SR-AFT/pages/SR-AFT-loading/title"]
    assert one.causes == (Cause(CauseKind.UNKNOWN, (1, 2)),)
    words = cause_words(one.causes[0], by_number(found), "stations")
    assert words == f"no single line was found; what differs is in stations/{STATION}, stations/{AFT}"
    (alone,) = explained(compare(before, was), input_edits(files(), files()), derive_site).differences
    assert cause_words(alone.causes[0], {}) == "no line was found; the files say the same"
    unread = explained(compare(was, now), edits, lambda files, holds: None)
    assert CauseKind.PROGRAM not in {cause.kind for one in unread.differences for cause in one.causes}


def test_edits_that_need_each_other_are_made_together() -> None:
    """A name that a station gives up and a hold takes on cannot be read by halves."""
    now = edited(
        (AFT, "hold: SR-AFT", "hold: SR-AFX"),
        (STATION, "[SR-AFT]", "[SR-AFX]"),
        (PROCEDURE, "hold: SR-AFT", "hold: SR-AFX"),
        (AFT, "4000 kg", "4100 kg"),
    )
    found = explain(files(), now)
    edits = by_number(found)
    causes = {
        one.identity: [edits[n].first.was for c in one.causes for n in c.edits] for one in found.differences
    }
    assert causes["SR-AFX/zones/aft-hold/combined"] == ["4000 kg"]


def test_an_approval_binds_to_what_was_shown_and_to_the_rules() -> None:
    was = version(files())
    found = compare(was, version(edited((AFT, "4000 kg", "4100 kg"))))
    again = compare(was, version(edited((AFT, "4000 kg", "4.1 t"))))
    more = compare(was, version(edited((AFT, "4000 kg", "4200 kg"))))
    rules = replace(found, now=replace(found.now, rule_set="other rules"))
    assert len({difference_hash(one) for one in (found, more, rules)}) == 3
    (one,), (other,) = found.differences, more.differences
    assert one.identity == other.identity
    assert len({seal(one, "rules"), seal(other, "rules"), seal(one, "other rules")}) == 3
    assert difference_hash(again) != difference_hash(more)


def test_a_revision_that_the_description_states_no_more_is_one_difference_and_no_number_that_fell() -> None:
    stated = version(files()).site
    station = replace(stated.station, revision=NO_REVISION)
    silent = replace(version(files()), site=replace(stated, station=station))
    (gone,) = compare(version(files()), silent).differences
    assert (gone.identity, gone.kind, gone.classed) == (
        "station/revision",
        DifferenceKind.REMOVED,
        DifferenceClass.WORDING,
    )
    assert gone.number is None
    (came,) = compare(silent, version(files())).differences
    assert (came.identity, came.kind) == ("station/revision", DifferenceKind.ADDED)
    (other,) = compare(
        version(files()), version(edited((STATION, 'date: "2026-11-20"', 'date: "2026-11-21"')))
    ).differences
    assert (other.identity, other.kind) == ("station/revision", DifferenceKind.CHANGED)


def _with_left(limit: int | None, title: str = "Aft container hold", zone: int = 4000) -> Version:
    """The station as its tables say that this much is left in 41 without lock 41, and that a zone takes."""
    found = version(edited((AFT, "title: Aft container hold", f"title: {title}")))
    (hold,) = found.site.holds
    some = next(cell for cell in hold.limits.cells if cell.governing is not None)
    cell = replace(some, candidates=())
    if limit is not None:
        cell = replace(some, candidates=(replace(some.candidates[0], mass=of(limit, "kg")),))
    tables = HoldTables(
        zones={"aft-hold": Most(of(zone, "kg"), (), ())},
        missing=(MissingRow(("lock-41",), "41", "AKH", of(1000, "kg"), cell),),
    )
    return replace(found, site=replace(found.site, holds=(replace(hold, tables=tables),)))


@pytest.mark.parametrize(
    ("was", "now", "classed"),
    [
        (900, 950, "loosened"),
        (900, 850, "tightened"),
        (None, 1, "loosened"),
        (1, None, "tightened"),
    ],
)
def test_what_is_left_with_something_missing_is_classed_by_how_much_it_is(
    was: int | None, now: int | None, classed: str
) -> None:
    (found,) = compare(_with_left(was), _with_left(now)).differences
    assert (found.identity, found.classed) == ("SR-AFT/tables/missing/lock-41", classed)
    assert compare(_with_left(now), _with_left(now)).differences == ()


def test_a_table_that_got_looser_shows_though_other_data_differ_and_a_graver_reason_takes_it_in() -> None:
    before, worded = _with_left(900), _with_left(950, "Aft hold")
    assert "loosened changed SR-AFT/tables/missing/lock-41" in told(compare(before, worded).differences)
    lower = compare(_with_left(950), _with_left(900, "Aft hold", zone=3900)).differences
    assert {one.classed for one in lower if "/tables/" in one.identity} == {DifferenceClass.TIGHTENED}
    was, now = _with_left(900), _with_left(950)
    (hold,) = now.site.holds
    zone = replace(hold.hold.zones["aft-hold"], combined=Stated(of(4100, "kg"), None))
    raised = replace(hold, hold=replace(hold.hold, zones={**hold.hold.zones, "aft-hold": zone}))
    looser = compare(was, replace(now, site=replace(now.site, holds=(raised,)))).differences
    assert [one.identity for one in looser if "/tables/" in one.identity] == []
    lead = next(one for one in looser if one.identity == "SR-AFT/zones/aft-hold/combined")
    assert "tables:missing" in {anchor.element for anchor in lead.anchors}
