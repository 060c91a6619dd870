"""Items out of service: stuck restraints, dead drives, controls and power.

A procedure that does without them is clean; one that uses them is told once for each. Common practice of
the trade, no source.
"""

from __future__ import annotations

from dataclasses import replace

from procgen.model.step import Drive
from procgen.model.words import RestraintState
from procgen.results.state import State, state_at_rest
from procgen.simulate import simulate
from tests.simulate.bench import Bench, bench
from tests.simulate.kinds import MIX_IN
from tests.simulate.procedures import ROW_IN, ROW_OUT, YARD_IN
from tests.simulate.slips import U41_AFT, U41_ALONG


def at_start(run: Bench) -> State:
    units = {name: unit.bay for name, unit in run.procedure.units.items()}
    return state_at_rest(run.hold, units if run.procedure.operation == "unloading" else {})


def with_dead(text: str, *names: str) -> list[tuple[str, str]]:
    run = bench(text)
    trace = run.run(replace(at_start(run), dead=frozenset(names)))
    return [(finding.rule, run.line(finding)) for finding in trace.findings]


def with_stuck(text: str, item: str, state: RestraintState, *edits: tuple[str, str]) -> list[tuple[str, str]]:
    run = bench(text, *edits)
    trace = run.run(replace(at_start(run), stuck={item: state}))
    return [(finding.rule, run.line(finding)) for finding in trace.findings]


def test_dead_power_moves_nothing() -> None:
    assert with_dead(ROW_IN, "power") == [("step-without-effect", '- set: {power-switch: "on"}')]


def test_a_dead_drive_is_told_once() -> None:
    assert with_dead(ROW_IN, "lane-drive") == [
        (
            "no-live-drive",
            U41_ALONG.strip(),
        )
    ]


def test_another_drive_under_the_hop_makes_up_for_a_dead_one() -> None:
    spare = (
        "drives:\n",
        'drives:\n  spare-drive: {name: spare drive, under: ["44", "43", "42", "41"], run-by: stick,'
        " go: [forward, aft], speed: 0.3 m/s, pull: 900 N}\n",
    )
    run = bench(ROW_IN, hold=(spare,))
    assert run.run(replace(at_start(run), dead=frozenset({"lane-drive"}))).findings == ()


def test_a_dead_control_is_told_once() -> None:
    assert with_dead(ROW_IN, "guide-switch") == [
        (
            "wrong-control-held",
            U41_ALONG.strip(),
        )
    ]
    assert with_dead(ROW_IN, "power-switch") == [("step-without-effect", '- set: {power-switch: "on"}')]


def test_a_lock_stuck_down_cannot_hold() -> None:
    assert with_stuck(ROW_IN, "lock-42", RestraintState.LOWERED) == [
        ("step-without-effect", "- raise: lock-42")
    ]
    left_out = ("  - raise: lock-42\n", "")
    assert with_stuck(ROW_IN, "lock-42", RestraintState.LOWERED, left_out) == [
        ("released-early", '- drive: {unit: u44, hold: {stick: in}, through: [outside, "44"]}')
    ]


def test_a_lock_stuck_up_lets_nothing_past() -> None:
    without_check = ("  - check: {lowered: [lock-41, lock-42, lock-43]}\n", "")
    assert with_stuck(ROW_IN, "lock-43", RestraintState.RAISED, without_check) == [
        (
            "move-through-raised-restraint",
            U41_ALONG.strip(),
        )
    ]


def test_a_stop_stuck_up_is_neither_pushed_down_nor_held_down() -> None:
    (into,) = with_stuck(ROW_IN, "sill-stop", RestraintState.RAISED)
    assert into == (
        "move-through-raised-restraint",
        '- drive: {unit: u41, hold: {stick: in}, through: [outside, "44"]}',
    )
    (out,) = with_stuck(ROW_OUT, "sill-stop", RestraintState.RAISED)
    assert out[0] == "move-through-raised-restraint"


def test_a_guide_stuck_down_does_not_guide() -> None:
    without_check = ("  - check: {raised: [side-guide, inner-guide]}\n", "")
    (told,) = with_stuck(ROW_IN, "side-guide", RestraintState.LOWERED, without_check)
    assert told == (
        "move-with-guide-down",
        '- drive: {unit: u41, hold: {stick: in}, through: [outside, "44"]}',
    )


def test_what_is_stuck_in_a_vacant_bay_is_left_as_it_is() -> None:
    """Nobody can leave a stuck lock as it should be where it holds no unit."""
    assert with_stuck(YARD_IN, "wide-stop", RestraintState.LOWERED) == []


def test_a_door_does_not_close_on_a_lock_stuck_down() -> None:
    untouched = (("  - lower: sill-lock\n", ""), ("  - raise: sill-lock\n", ""))
    assert with_stuck(ROW_IN, "sill-lock", RestraintState.LOWERED, *untouched) == [
        ("door-closed-too-early", "- close: aft-door")
    ]


def test_the_words_say_that_it_is_out_of_service() -> None:
    run = bench(ROW_IN)
    start = replace(at_start(run), dead=frozenset({"power"}), stuck={"lock-42": RestraintState.LOWERED})
    assert [finding.message for finding in run.run(start).findings] == [
        "step 5 sets power switch to on, but power is out of service",
        "step 18 raises lock 42, which is out of service, stuck down",
    ]


def test_an_item_stuck_up_stays_up_though_its_control_is_held() -> None:
    """It holds its unit still: nothing is released early, and what it guides is guided."""
    both = (
        "between: [1R, 1L], stops: [in, out], moved-by: hand,\n    reached-from: inside, at-rest: raised,",
        "between: [1R, 1L], stops: [in, out], moved-by: hand, lowered-by: {edge-lever: down},\n"
        "    reached-from: inside, at-rest: raised, guides: [[outside, 2R]],",
    )
    aboard = ("steps:\n", "aboard:\n  uF: {type: AKH, bay: 1L}\nsteps:\n")
    text = "\n".join(line for line in MIX_IN.splitlines() if "uP" not in line and "centre-1" not in line)
    text = text.replace("steps:\n", aboard[1]).replace("  - raise: lock-L\n", "") + "\n"
    run = bench(text, hold=(both,))
    start = state_at_rest(run.hold, {"uF": "1L"})
    free = [finding.rule for finding in run.run(start).findings]
    assert set(free) == {"released-early", "move-with-guide-down"}
    stuck = run.run(replace(start, stuck={"centre-1": RestraintState.RAISED}))
    assert [finding.rule for finding in stuck.findings] == []


JAMMED = "jammed: [u41]\nsteps:\n"


def test_a_jammed_unit_is_not_moved_and_that_it_is_is_told_once() -> None:
    run = bench(ROW_OUT, ("steps:\n", JAMMED))
    told = run.run().findings
    assert [(finding.rule, run.line(finding)) for finding in told] == [("jammed-unit-moved", U41_AFT.strip())]
    assert told[0].message.endswith("drives u41, which is jammed in 41")
    assert run.run().steps[0].before.jammed == {"u41"}


def test_a_unit_that_jams_half_way_is_not_moved_on() -> None:
    run = bench(ROW_IN)
    steps = run.procedure.steps
    index = next(i for i, step in enumerate(steps) if isinstance(step, Drive) and step.through[-1] == "41")
    before = run.run().steps[index].before
    rest = replace(run.procedure, steps=run.procedure.steps[index:])
    trace = simulate(
        run.hold, run.loaded.network.unit_types, rest, replace(before, jammed=frozenset({"u41"}))
    )
    assert [finding.rule for finding in trace.findings] == ["jammed-unit-moved"]
