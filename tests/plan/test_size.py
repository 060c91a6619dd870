"""A hold of forty positions in two rows is planned in well under a second."""

from __future__ import annotations

import time
from dataclasses import replace
from typing import Any

import pytest

from procgen.model.words import Operation, RestraintState
from procgen.plan import choose_units, plan
from procgen.results.plan import Plan
from tests.plan.planning import findings, rest
from tests.strategies import GeneratedHold, built

DEEP = 20
Data = dict[str, Any]


def _row(side: str, y: list[str]) -> tuple[Data, Data, Data]:
    """Bays, restraints and positions of one row, numbered from its far end."""
    bays, restraints, positions = {}, {}, {}
    for number in range(1, DEEP + 1):
        name = f"{number}{side}"
        x = [f"{1.6 * number:.2f} m", f"{1.6 * number + 1.58:.2f} m"]
        bays[name] = {"x": x, "y": y, "position": True}
        held = ["rails"]
        if number < DEEP:
            restraints[f"lock-{name}"] = {
                "name": f"lock {name}",
                "kind": "lock",
                "between": [f"{number + 1}{side}", name],
                "stops": ["forward", "aft"],
                "moved-by": "hand",
                "reached-from": "inside",
                "at-rest": "raised",
            }
            held.append(f"lock-{name}")
        if number > 1:
            held.append(f"lock-{number - 1}{side}")
        positions[name] = {"held-by": held, "max": {"K": "1588 kg"}, "source": "WB 1"}
    return bays, restraints, positions


def _stick(name: str, go: list[str], under: list[str]) -> tuple[Data, Data]:
    control = {"name": f"{name} stick", "kind": "stick", "positions": ["centre", *go], "hold-to-run": True}
    return {f"{name}-stick": control}, {
        f"{name}-drive": {"name": f"{name} drive", "under": under, "run-by": f"{name}-stick", "go": go}
    }


@pytest.fixture(scope="module")
def forty() -> GeneratedHold:
    return forty_positions()


def forty_positions() -> GeneratedHold:
    """Two rows of twenty positions, the door at their aft end, a lock behind each position."""
    left, right = _row("L", ["-1.64 m", "-0.04 m"]), _row("R", ["0.04 m", "1.64 m"])
    doorway = [f"{DEEP}R", f"{DEEP}L"]
    bays = {**left[0], **right[0]}
    bays[doorway[0]]["door"] = "cargo-door"
    sticks = [_stick("door", ["in", "out"], doorway)]
    sticks += [
        _stick(row, ["forward", "aft"], list(one[0])) for row, one in (("left", left), ("right", right))
    ]
    rails: Data = {
        "name": "rails",
        "kind": "rail",
        "beside": list(bays),
        "stops": ["in", "out"],
        "fixed": True,
    }
    switch = {"name": "power switch", "kind": "switch", "positions": ["off", "on"]}
    lanes = [{"go": "in", "through": ["outside", *doorway]}]
    lanes += [{"go": "forward", "through": [f"{n}{side}" for n in range(DEEP, 0, -1)]} for side in "RL"]
    factors = dict.fromkeys(("forward", "aft", "left", "right", "up"), "1.5 g")
    door = {"name": "cargo door", "side": "right", "sill": "2 m", "x": ["32 m", "33.6 m"]}
    return built(
        {
            "hold": "GEN",
            "title": "forty positions",
            "aircraft": "T-1",
            "demonstration": True,
            "sources": {"WB": {"title": "invented", "issue": "1", "date": "2026-01-01"}},
            "floor": {
                "x": ["0 m", "40 m"],
                "y": ["-2 m", "2 m"],
                "height": "1.68 m",
                "surface": "roller track",
            },
            "load-factors": {**factors, "kind": "limit", "source": "WB 1"},
            "doors": {"cargo-door": {**door, "clear": {"width": "1.72 m", "height": "1.66 m"}}},
            "bays": bays,
            "lanes": lanes,
            "restraints": {"rails": rails, **left[1], **right[1]},
            "positions": {**left[2], **right[2]},
            "power": {"switch": "power-switch", "on": "on", "off": "off"},
            "controls": {"power-switch": switch, **{k: v for one, _ in sticks for k, v in one.items()}},
            "drives": {k: v for _, one in sticks for k, v in one.items()},
        }
    )


@pytest.mark.parametrize("operation", Operation)
def test_forty_positions_take_well_under_a_second(forty: GeneratedHold, operation: Operation) -> None:
    units = choose_units(forty.hold, forty.unit_types)
    start = rest(forty.hold, operation, units)
    began = time.process_time()
    made = plan(forty.hold, forty.unit_types, start, operation, units)
    took = time.process_time() - began
    assert isinstance(made, Plan)
    assert len(made.units) == 2 * DEEP
    assert findings(forty.hold, forty.unit_types, made) == ()
    assert took < 1, took


def test_every_single_failure_of_forty_positions_is_planned_in_under_a_second(forty: GeneratedHold) -> None:
    """The planner's time for the whole sweep is printed: `pytest -s tests/plan/test_size.py`."""
    units = choose_units(forty.hold, forty.unit_types)
    start = rest(forty.hold, Operation.LOADING, units)
    starts = [
        replace(start, stuck={name: state}, restraints={**start.restraints, name: state})
        for name in forty.hold.restraints
        for state in RestraintState
    ]
    dead = (*forty.hold.drives, *forty.hold.controls, "power")
    starts += [replace(start, dead=frozenset({name})) for name in dead]
    took: list[float] = []
    planned = 0
    for failed in starts:
        began = time.process_time()
        made = plan(forty.hold, forty.unit_types, failed, Operation.LOADING, units)
        took.append(time.process_time() - began)
        planned += isinstance(made, Plan)
    print(f"{len(starts)} failures, {planned} planned: {sum(took):.1f} s in all, {max(took):.2f} s at most")
    assert len(starts) == 2 * 39 + 8
    assert max(took) < 1, max(took)


def test_a_unit_that_stays_in_the_way_takes_no_longer(forty: GeneratedHold) -> None:
    positions = list(forty.hold.positions)
    aboard = choose_units(forty.hold, forty.unit_types, positions[1::2])
    units = choose_units(forty.hold, forty.unit_types, positions[::2])
    start = rest(forty.hold, Operation.LOADING, units, aboard)
    began = time.process_time()
    made = plan(forty.hold, forty.unit_types, start, Operation.LOADING, units, aboard)
    took = time.process_time() - began
    print(f"{len(aboard)} aboard: {took:.2f} s")
    assert isinstance(made, Plan)
    assert set(made.put_back) == set(aboard)
    assert took < 1, took
