"""What a difference is called, and where what is not derived again for each edit comes from."""

from __future__ import annotations

from dataclasses import replace

from procgen.diff import compare, input_edits
from procgen.diff.causes import explained
from procgen.pipeline.deriving import derive_site
from procgen.results.difference import Cause, CauseKind, DifferenceClass, Version
from procgen.results.hold_tables import HoldTables
from procgen.results.load_limits import Most
from procgen.results.page import PageWarning, ProcedurePage
from procgen.units import of
from tests.diff.versions import AFT, STATION, edited, explain, files, version


def test_a_warning_that_applies_to_a_step_no_more_is_called_by_its_title() -> None:
    site = version(files()).site
    hold = site.holds[0]
    page = hold.pages[0]
    at, block = next(
        (at, block) for at, block in enumerate(page.blocks) if any(step.marks for step in block.steps)
    )
    name = next(step.marks[0] for step in block.steps if step.marks)
    title = next(one.title for one in _every_warning(page) if one.name == name)
    bare = tuple(
        replace(step, marks=tuple(mark for mark in step.marks if mark != name)) for step in block.steps
    )
    blocks = (*page.blocks[:at], replace(block, steps=bare), *page.blocks[at + 1 :])
    pages = (replace(page, blocks=blocks), *hold.pages[1:])
    less = replace(site, holds=(replace(hold, pages=pages),))
    found = compare(Version("a", site), Version("b", less)).differences
    assert {one.classed for one in found} == {DifferenceClass.LOOSENED}
    assert {one.was.text for one in found if one.was} == {title}
    assert all(f"warning “{title}”" in one.subject for one in found)


def _every_warning(page: ProcedurePage) -> list[PageWarning]:
    own = [*page.warnings, *(warning for block in page.blocks for warning in block.warnings)]
    return [*own, *(one for block in page.blocks for step in block.steps for one in step.warnings)]


def _zoned(found: Version, most: int) -> Version:
    """The version as its tables say that a zone takes this much."""
    (hold,) = found.site.holds
    tables = HoldTables(zones={"aft-hold": Most(of(most, "kg"), (), ())})
    return replace(found, site=replace(found.site, holds=(replace(hold, tables=tables),)))


def test_what_is_derived_from_a_hold_comes_from_the_edits_of_its_data_or_from_the_program() -> None:
    """Tables, matrices and ways out are not derived again for each edit."""
    edits = (AFT, "title: Aft container hold", "title: Aft hold"), (STATION, "channel 4", "channel 5")
    texts = edited(*edits)
    was, now = _zoned(version(files()), 4000), _zoned(version(texts), 4100)
    found = explained(compare(was, now), input_edits(files(), texts), derive_site)
    causes = {one.identity: one.causes for one in found.differences}
    assert len(found.edits) == len(edits)
    assert causes["SR-AFT/tables/zones/aft-hold"] == causes["SR-AFT/title"]
    assert [cause.kind for cause in causes["SR-AFT/title"]] == [CauseKind.INPUT]
    now = _zoned(version(files()), 4100)
    for rules, kind in (("other rules", CauseKind.PROGRAM), (was.rule_set, CauseKind.UNKNOWN)):
        found = compare(was, replace(now, rule_set=rules))
        alike = explained(found, input_edits(files(), files()), derive_site)
        assert [one.causes for one in alike.differences] == [(Cause(kind),)]


def test_a_restraint_worked_by_hand_from_outside_sends_nobody_in() -> None:
    by_switch, by_hand = "lowered-by: {guide-switch: forward}\n    powered: true", "moved-by: hand"
    outside, inside = (
        edited((AFT, by_switch, f"{by_hand}\n    reached-from: {where}")) for where in ("outside", "inside")
    )
    identity = "SR-AFT/restraints/side-guide/reached-from"
    for was, now, classed in (
        (files(), outside, DifferenceClass.CHANGED),
        (outside, files(), DifferenceClass.CHANGED),
        (files(), inside, DifferenceClass.LOOSENED),
        (inside, files(), DifferenceClass.TIGHTENED),
        (outside, inside, DifferenceClass.LOOSENED),
    ):
        found = {one.identity: one for one in compare(version(was), version(now)).differences}
        assert found[identity].classed is classed
        assert ("nobody" in found[identity].why) == (classed is not DifferenceClass.LOOSENED)


def test_edits_that_cannot_be_made_alone_are_one_cause_together() -> None:
    was = "lowered-by: {guide-switch: forward}\n    powered: true"
    texts = edited((AFT, was, "moved-by: hand\n    reached-from: outside"))
    found = explain(files(), texts).differences
    reached = next(one for one in found if one.identity == "SR-AFT/restraints/side-guide/reached-from")
    assert [cause.kind for cause in reached.causes] == [CauseKind.TOGETHER]


def test_where_a_zone_lies_says_why_either_way_can_loosen() -> None:
    texts = edited((AFT, "x: [12.20 m, 14.40 m], combined", "x: [12.20 m, 14.00 m], combined"))
    (found,) = compare(version(files()), version(texts)).differences
    assert found.classed is DifferenceClass.LOOSENED
    assert found.why == "where things stand decides what counts together, and either way can loosen"
