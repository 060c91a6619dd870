"""Whatever an author writes, a page can be made of it: names that nothing has, moves that lead nowhere."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.model.hold import Hold
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Note,
    Open,
    PlannedUnit,
    Present,
    Procedure,
    Push,
    Raise,
    Remove,
    Report,
    Section,
    SetControl,
    Step,
    Stow,
    Warn,
)
from procgen.model.words import OUTSIDE, Looker, Operation, RestraintState, SectionName
from tests.support import demo, demo_hold
from tests.write.derived import HOLDS, page_of, steps_of


def _steps(hold: Hold) -> st.SearchStrategy[Step]:
    def name(*known: str) -> st.SearchStrategy[str]:
        return st.sampled_from([*known, "nothing"])

    restraint, control = name(*hold.restraints), name(*hold.controls)
    target = name(*hold.doors, *hold.panels)
    unit, place = name("u1", "u2"), name(*hold.bays, OUTSIDE)
    through = st.lists(place, max_size=4).map(tuple)
    held = st.dictionaries(control, name("in", "out", "forward", "aft", "down"), max_size=3)
    hazards = demo().network.hazards
    return st.one_of(
        st.builds(Section, st.sampled_from(SectionName)),
        st.builds(Warn, name("warning", "caution"), name(*hazards.hazards)),
        st.builds(Open, target),
        st.builds(Close, target),
        st.builds(SetControl, control, name("on", "off")),
        *(st.builds(action, restraint) for action in (Raise, Lower, Fit, Remove)),
        st.builds(Present, unit, st.none() | target),
        st.builds(Drive, unit, held, through),
        st.builds(Push, unit, st.integers(0, 9), through, held),
        st.builds(Stow, unit, st.integers(0, 9), through),
        st.builds(Check, name(*hazards.checks), st.none() | unit),
        st.builds(
            CheckItems,
            st.lists(restraint, min_size=1, max_size=3).map(tuple),
            st.sampled_from(RestraintState),
        ),
        st.builds(CheckLatch, target, st.sampled_from(Looker)),
        st.builds(Report, name(*hazards.reports)),
        st.builds(Note, st.just("A remark.")),
    )


@st.composite
def procedures(draw: st.DrawFn) -> Procedure:
    hold = demo_hold(draw(st.sampled_from(HOLDS)))
    bay = st.sampled_from([*hold.bays, "nowhere"])
    units = {
        name: PlannedUnit(name, draw(st.sampled_from(["AKH", "AKE", "ZZZ"])), draw(bay)) for name in ("u1",)
    }
    steps = tuple(draw(st.lists(_steps(hold), max_size=15)))
    return Procedure("any", hold.name, draw(st.sampled_from(Operation)), units, steps)


@settings(deadline=None, max_examples=60)
@given(procedures())
def test_every_action_is_said_once_and_every_warning_is_shown(procedure: Procedure) -> None:
    page = page_of(procedure)
    actions = [i for i, step in enumerate(procedure.steps) if not isinstance(step, (Section, Warn))]
    assert [step.index for step in steps_of(page)] == actions
    assert all(step.text for step in steps_of(page))
    shown = {warning.name for warning in page.warnings}
    for block in page.blocks:
        assert block.steps
        shown |= {warning.name for warning in block.warnings}
        shown |= {warning.name for step in block.steps for warning in step.warnings}
    written = {step.hazard for step in procedure.steps if isinstance(step, Warn)}
    assert shown == written or not actions
    assert page == page_of(procedure)
