"""What we write, the loader reads back as the same procedure without a finding."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.load import load_procedure
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
from procgen.model.words import Looker, Operation, RestraintState, SectionName
from procgen.report import plan_json, plan_yaml
from tests.support import demo, schemas

Printed = Callable[[Procedure], str]
FORMS = pytest.mark.parametrize(("ending", "printed"), [("yaml", plan_yaml), ("json", plan_json)])


def read_back(text: str, ending: str) -> Procedure:
    found, _, findings = load_procedure(f"p.{ending}", text, demo().network, schemas())
    assert findings == ()
    assert found is not None
    return found


@FORMS
def test_every_procedure_of_the_demonstration(ending: str, printed: Printed) -> None:
    written = [one for station in demo().network.stations.values() for one in station.procedures]
    assert written
    for one in written:
        assert read_back(printed(one), ending) == one


NAMES = st.from_regex(r"[A-Za-z0-9]{1,5}(-[A-Za-z0-9]{1,4})?", fullmatch=True) | st.sampled_from(
    ["41", "on", "off", "no", "010", "1e3", "null", "true", "y"]
)
HELD = st.dictionaries(NAMES, NAMES, min_size=1, max_size=2)
WAY = st.lists(NAMES, min_size=2, max_size=5).map(tuple)
ITEMS = st.lists(NAMES, min_size=1, max_size=4).map(tuple)
REMARKS = st.text(st.characters(exclude_categories=["Cs"]), max_size=40).map(
    lambda text: " ".join(text.split())
)
KNOWN = demo().network.hazards
STEPS: st.SearchStrategy[Step] = st.one_of(
    st.builds(Section, st.sampled_from(SectionName)),
    st.builds(Warn, st.sampled_from(["warning", "caution", "notice"]), st.sampled_from(list(KNOWN.hazards))),
    st.builds(Open, NAMES),
    st.builds(Close, NAMES),
    st.builds(SetControl, NAMES, NAMES),
    st.builds(Raise, NAMES),
    st.builds(Lower, NAMES),
    st.builds(Fit, NAMES),
    st.builds(Remove, NAMES),
    st.builds(Present, NAMES, st.none() | NAMES),
    st.builds(Drive, NAMES, HELD, WAY),
    st.builds(Push, NAMES, st.integers(1, 20), WAY, st.dictionaries(NAMES, NAMES, max_size=2)),
    st.builds(Stow, NAMES, st.integers(1, 20), WAY),
    st.builds(Check, st.sampled_from(list(KNOWN.checks)), st.none() | NAMES),
    st.builds(CheckItems, ITEMS, st.sampled_from(RestraintState)),
    st.builds(CheckLatch, NAMES, st.sampled_from(Looker)),
    st.builds(Report, st.sampled_from(list(KNOWN.reports))),
    st.builds(Note, REMARKS.filter(bool)),
)


@st.composite
def procedures(draw: st.DrawFn) -> Procedure:
    """Any steps at all: what they do to the hold is not for the step form to judge."""
    bays = draw(st.permutations(["41", "42", "43", "44"]))
    names = draw(st.lists(NAMES, min_size=2, max_size=4, unique=True))
    units = {
        name: PlannedUnit(name, draw(st.sampled_from(["AKH", "PKC"])), bay)
        for name, bay in zip(names, bays, strict=False)
    }
    moved = draw(st.integers(1, len(names)))
    return Procedure(
        name="any",
        hold="SR-AFT",
        operation=draw(st.sampled_from(Operation)),
        units={name: units[name] for name in names[:moved]},
        steps=tuple(draw(st.lists(STEPS, min_size=1, max_size=8))),
        aboard={name: units[name] for name in names[moved:]},
        title="Any steps",
    )


@FORMS
@settings(deadline=None, max_examples=30)
@given(one=procedures())
def test_any_procedure(ending: str, printed: Printed, one: Procedure) -> None:
    assert read_back(printed(one), ending) == one


def test_a_note_as_a_signal_word_is_a_notice() -> None:
    hazard = next(iter(KNOWN.hazards))
    unit = {"u": PlannedUnit("u", "AKH", "41")}
    one = Procedure("any", "SR-AFT", Operation.LOADING, unit, (Warn("note", hazard),))
    assert read_back(plan_yaml(one), "yaml").steps == (Warn("notice", hazard),)
