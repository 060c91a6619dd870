"""Units pulled with gear: its rating, where those who pull stand, who is in the hold meanwhile.

By hand for MR-FWD and a unit of AKH at its maximum (limits.md, section 7): to start it takes
1134 kg x 9.80665 m/s2 x (3 % + 2 %) = 556.04 N. From the far edge of bay 23 to the outer face of the wall at
the door it is 0.79 m + 0.85 m + 0.09 m = 1.73 m.
"""

from __future__ import annotations

import pytest

from procgen.diagnostics import Finding
from tests.simulate.bench import bench
from tests.simulate.procedures import PULL_OUT as OUT

MOVE = "crew: 5, with: pulling-strap, hold: {stop-pedal: down}"
AFT = """\
procedure: p
hold: MR-FWD
operation: unloading
units:
  u22: {type: AKH, bay: "22"}
steps:
  - open: forward-door
  - lower: door-lock
  - check: path-clear
  - VERB: {unit: u22, crew: 5, through: ["22", "23"]}
  - lower: forward-sill-lock
  - lower: aft-sill-lock
  - pull: {unit: u22, crew: 5, with: pulling-strap, hold: {stop-pedal: down}, through: ["23", outside]}
"""
PULL, PUSH = "pull: {unit: u22, with: pulling-strap,", "push: {unit: u22,"


def _findings(text: str, *edits: tuple[str, str], hold: tuple[tuple[str, str], ...] = ()) -> list[Finding]:
    return list(bench(text, *edits, hold=hold).run().findings)


def _rules(text: str, *edits: tuple[str, str], hold: tuple[tuple[str, str], ...] = ()) -> list[str]:
    return [finding.rule for finding in _findings(text, *edits, hold=hold)]


def test_a_pull_out_on_to_the_platform_leaves_nobody_in_the_hold() -> None:
    assert _rules(OUT) == []
    pushed = ("pull: {unit: u23, crew: 5, with: pulling-strap,", "push: {unit: u23, crew: 5,")
    assert _rules(OUT, pushed) == ["person-shut-in"]


@pytest.mark.parametrize(("rated", "rules"), [("556 N", ["pull-above-rating"]), ("557 N", [])])
def test_the_gear_bears_the_pull_that_the_unit_takes(rated: str, rules: list[str]) -> None:
    found = _findings(OUT, hold=(("pull: 1 000 N", f"pull: {rated}"),))
    assert [finding.rule for finding in found] == rules
    if found:
        assert "takes a pull of 557 N, and it is rated at 556 N" in found[0].message


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        (("length: 2.0 m", "length: 1.72 m"), "past where the unit comes to stand takes 1.73 m"),
        (("    wall: 90 mm\n", ""), "the forward cargo door has no “wall”"),
        (("length: 2.0 m", "length: 1.73 m"), ""),
    ],
)
def test_who_pulls_stands_past_where_the_unit_comes_to_stand(edit: tuple[str, str], said: str) -> None:
    found = _findings(OUT, hold=(edit,))
    assert [finding.rule for finding in found] == (["nowhere-to-pull-from"] if said else [])
    assert all(said in finding.message for finding in found)


def test_nobody_pulls_from_inside_the_hold() -> None:
    (found,) = (
        finding
        for finding in _findings(AFT.replace("VERB: {unit: u22,", PULL))
        if finding.rule == "nowhere-to-pull-from"
    )
    assert "in its path or shut in beyond it" in found.message


def test_who_has_pushed_a_unit_is_out_before_it_is_pulled() -> None:
    text = AFT.replace("VERB: {unit: u22,", PUSH)
    assert "person-in-the-way" in _rules(text)
    out = ("  - lower: aft-sill-lock\n", "  - lower: aft-sill-lock\n  - check: path-clear # for the pull\n")
    assert "person-in-the-way" not in _rules(text, out)


def test_gear_that_the_hold_does_not_have_is_told_with_the_nearest_one() -> None:
    (found,) = _findings(OUT, (MOVE, MOVE.replace("pulling-strap", "puling-strap")))
    assert found.rule == "unknown-in-hold"
    assert "pulling-strap" in found.suggestion


def test_fewer_people_than_it_takes_do_not_pull_either() -> None:
    assert _rules(OUT, (MOVE, MOVE.replace("crew: 5", "crew: 4"))) == ["crew-too-small"]
