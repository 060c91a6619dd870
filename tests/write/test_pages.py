"""Procedures as pages: blocks, numbers, warnings, marks, and what each step says."""

from __future__ import annotations

import pytest

from procgen.limits import position_table
from procgen.model.step import Drive, Procedure, Section, Warn
from procgen.model.words import Operation, SignalWord
from procgen.results.page import PageStep, ProcedurePage
from procgen.write import compose
from tests.support import demo, demo_files, demo_hold, demo_with, load_texts
from tests.write.derived import HOLDS, demo_procedures, generated, page_of, plan_for, steps_of
from tests.write.language import MODALS, condition_after_action, sentences, words
from tests.write.plans import SINGLE_ROW_LOADING, TWIN_ROW_LOADING, plan_of, written

PAGES = [page_of(procedure) for procedure in demo_procedures()]


def _page(text: str) -> ProcedurePage:
    plan = plan_of(text)
    hold = demo_hold(plan.hold)
    return page_of(compose(plan, hold, demo().network.hazards))


def _single_row() -> Procedure:
    """The hand-written plan for the single-row hold, composed."""
    return compose(plan_of(SINGLE_ROW_LOADING), demo_hold("SR-AFT"), demo().network.hazards)


def _said(page: ProcedurePage, start: str) -> PageStep:
    """The first step whose text begins so."""
    return next(step for step in steps_of(page) if step.text.startswith(start))


def _drives(page: ProcedurePage, procedure: Procedure) -> list[PageStep]:
    return [step for step in steps_of(page) if isinstance(procedure.steps[step.index], Drive)]


@pytest.mark.parametrize("page", PAGES, ids=lambda p: p.name)
def test_every_action_has_its_number_and_its_place(page: ProcedurePage) -> None:
    procedure = next(p for p in demo_procedures() if p.name == page.name)
    steps = steps_of(page)
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))
    actions = [i for i, step in enumerate(procedure.steps) if not isinstance(step, (Section, Warn))]
    assert [step.index for step in steps] == actions
    assert [block.letter for block in page.blocks] == list("ABCDEFGHIJKLMNOP"[: len(page.blocks)])
    assert all(step.text for step in steps)


@pytest.mark.parametrize("page", PAGES, ids=lambda p: p.name)
def test_every_warning_is_shown_once_where_it_stands(page: ProcedurePage) -> None:
    procedure = next(p for p in demo_procedures() if p.name == page.name)
    shown = [w.name for w in page.warnings]
    for block in page.blocks:
        shown += [w.name for w in block.warnings]
        shown += [w.name for step in block.steps for w in step.warnings]
    assert sorted(shown) == sorted(step.hazard for step in procedure.steps if isinstance(step, Warn))
    assert all(w.hazard and w.consequence and w.avoid for w in page.warnings)


@pytest.mark.parametrize("page", PAGES, ids=lambda p: p.name)
def test_sentences_are_short_and_leave_nothing_open(page: ProcedurePage) -> None:
    """At most 20 words, no doubtful modal, condition before action (common practice, no source)."""
    for step in steps_of(page):
        for text in (step.text, step.why, step.done_when, step.if_not):
            assert "{" not in text
            for sentence in sentences(text):
                assert words(sentence) <= 20, sentence
                assert not MODALS.search(sentence), sentence
        for sentence in sentences(step.text):
            assert not condition_after_action(sentence), sentence


@pytest.mark.parametrize("page", PAGES, ids=lambda p: p.name)
def test_marks_name_warnings_that_stand_above(page: ProcedurePage) -> None:
    above = {warning.name for warning in page.warnings}
    kind = ""
    for block in page.blocks:
        if block.kind != kind:
            section = {warning.name for warning in block.warnings}
            kind = block.kind
        for step in block.steps:
            assert set(step.marks) <= above | section
    drive = next(step for step in steps_of(page) if step.text.startswith("Hold the "))
    assert "crushed-by-moving-unit" in drive.marks
    assert "unit-out-of-control" in drive.marks


@pytest.mark.parametrize("name", HOLDS)
@pytest.mark.parametrize("operation", Operation)
def test_blocks(name: str, operation: Operation) -> None:
    """One block per unit between preparing and closing, none longer than a head can hold."""
    procedure = generated(name, operation)
    page = page_of(procedure)
    kinds = [block.kind for block in page.blocks]
    count = len(procedure.units)
    assert kinds == ["before-you-start", "prepare", *["cycle"] * count, "secure-and-close"]
    cycles = [block for block in page.blocks if block.kind == "cycle"]
    assert [(block.unit, block.bay) for block in cycles] == [(unit, bay) for unit, _, bay in page.units]
    word = "Load" if operation is Operation.LOADING else "Unload"
    assert [block.title for block in cycles] == [f"{word} {block.bay}" for block in cycles]
    assert all(2 <= len(block.steps) <= 9 for block in cycles)


def test_what_the_loader_needs_to_know_of_a_unit() -> None:
    page = _page(TWIN_ROW_LOADING)
    table = position_table(demo_hold("TR-FWD"), demo().network.unit_types)
    limit = next(c.limit for c in table.cells if (c.position, c.unit_type) == ("13L", "AKE"))
    assert limit is not None
    assert _said(page, "Bring the unit").text == (
        f"Bring the unit for **13L** (AKE, at most {limit.down()}) to the sill."
    )
    assert _said(page, "Bring **AKE70021**").text.startswith("Bring **AKE70021** (AKE, for **14L**, at most ")
    titles = [(block.title, block.intro) for block in page.blocks if block.kind == "cycle"]
    assert titles[0] == ("Load 13L", "AKE, at most 1 588 kg. Secure it with **lock 12L** and **lock 13L**.")
    assert titles[1][0] == "Load 14L: AKE70021"


def test_what_was_raised_ahead_is_named_where_it_holds() -> None:
    """The locks behind 35L go up before another unit comes: whoever works 35L looks that they are up."""
    page = page_of(generated("MX-AFT", Operation.LOADING))
    intros = {block.bay: block.intro for block in page.blocks if block.kind == "cycle"}
    assert "Already in place: **aft lock 35L** and **centre lock 35**." in intros["35L"]
    assert "Already in place" not in intros["31L"]


def test_masses_in_pounds_are_rounded_down() -> None:
    """1 134 kg are 2 500.04 lb (2.204 622 6 lb in a kilogram, memory): 2 500 lb."""
    page = page_of(_single_row())
    pounds = page_of(_single_row(), mass_unit="lb")
    assert "at most 1 134 kg" in _said(page, "Bring").text
    assert "at most 2 500 lb" in _said(pounds, "Bring").text


def test_a_guide_is_let_go_of_before_the_unit_arrives() -> None:
    """41 lies beyond 43: the switch is let go of on the way; into 43 both are held to the end."""
    page = _page(SINGLE_ROW_LOADING)
    hold = "Hold the **side guide switch** and the **drive stick** to FORWARD together"
    first, second = [step for step in steps_of(page) if step.text.startswith(hold)]
    assert first.text == (
        f"{hold}. When the unit is past the **side guide**, let go of the **side guide switch**."
        " When the unit touches the **end stop**, let go of the **drive stick**."
    )
    assert second.text == f"{hold} until the unit stands in **43**."
    assert first.why == "The **side guide** comes up by itself."
    assert "No stop holds it there" in second.why


def test_what_stops_a_unit_follows_from_what_stands_there() -> None:
    procedure = generated("TR-FWD", Operation.LOADING)
    steps = _drives(page_of(procedure), procedure)
    joined = "\n".join(step.text for step in steps)
    assert "touches the **left end stop**" in joined  # 11L, nothing before it
    assert "touches **lock 11L**" in joined  # 12L, with 11L locked
    assert "touches the **left side rail**" in joined  # 14L
    right = [
        s for s in steps if s.text.startswith("Hold the **door stick** to IN until the unit touches the **c")
    ]
    assert right
    assert all("The **centreline guide** gives way in this direction" in step.why for step in right)


def test_the_unit_ahead_stops_what_nothing_else_stops() -> None:
    text = SINGLE_ROW_LOADING.replace("  - raise: lock-41\n", "").replace(
        'u43: {type: AKH, bay: "43"}', 'u43: {type: AKH, bay: "42"}'
    )
    text = text.replace('["44", "43"]}', '["44", "43", "42"]}')
    page = page_of(written(text))
    assert any("When the unit touches the unit in **41**, let go" in step.text for step in steps_of(page))


def test_interlocks_say_what_they_do_to_the_power() -> None:
    page = page_of(generated("TR-FWD", Operation.LOADING))
    first, second = _said(page, "Lower the **forward sill"), _said(page, "Lower the **aft sill")
    assert first.why == "Power stays off until the **forward sill lock** and the **aft sill lock** are down."
    assert second.why == "It also lets power on."
    assert _said(page, "Raise the **forward sill").why == "This also cuts the power."
    assert _said(page, "Raise the **aft sill").why == ""  # it is off already
    assert _said(page, "Set the **power switch** to ON").if_not.startswith("Look again whether the **forward")


def test_locks_say_when_they_hold() -> None:
    page = page_of(generated("SR-AFT", Operation.LOADING))
    raised = _said(page, "Go in. Raise **lock 41**")
    assert raised.done_when == ("Done when it stands upright and the unit cannot roll back: push it by hand.")
    sill = _said(page, "Raise the **door sill lock**")
    assert "the unit in **44** cannot move" in sill.done_when
    unloading = page_of(generated("SR-AFT", Operation.UNLOADING))
    assert _said(unloading, "Raise the **door sill lock**").done_when == "Done when it stands upright."


def test_people_go_in_once_and_come_out_before_a_move() -> None:
    """Were the doorway guides reached from inside, one way in would do for both."""
    files = dict(demo_files())
    text = files["fleet/holds/TR-FWD.yaml"]
    start = text.index("  forward-doorway-guide:")
    files["fleet/holds/TR-FWD.yaml"] = text[:start] + text[start:].replace(
        "reached-from: outside", "reached-from: inside"
    )
    loaded = load_texts(files)
    hold = loaded.network.holds["TR-FWD"]
    plan = plan_for(hold, Operation.LOADING)
    page = page_of(compose(plan, hold, loaded.network.hazards), hold, loaded.network)
    guides = [step.text for step in steps_of(page) if "doorway guide**" in step.text]
    assert guides == ["Go in. Raise the **forward doorway guide**.", "Raise the **aft doorway guide**."]
    assert [step.then for step in steps_of(page) if "doorway guide**" in step.text] == ["", "Then come out."]


@pytest.mark.parametrize("page", PAGES, ids=lambda p: p.name)
def test_nobody_is_left_in_the_hold_at_the_end_of_a_block(page: ProcedurePage) -> None:
    """A block may be interrupted at its end: whoever went in has come out by then."""
    for block in page.blocks:
        inside = False
        for step in block.steps:
            inside = (inside or step.text.startswith("Go in.")) and not step.then
        assert not inside, block.title
    assert any(step.then for step in steps_of(page))


def test_the_last_look_names_what_must_stand_up() -> None:
    page = page_of(generated("SR-AFT", Operation.LOADING))
    look = _said(page, "Second person")
    assert look.done_when == (
        "Done when you have heard: the **door sill lock**, the **inner guide**, **lock 43**, **lock 42**"
        " and **lock 41**."
    )
    empty = _said(page_of(generated("SR-AFT", Operation.UNLOADING)), "Look into every position, one by one")
    assert empty.done_when == "Done when you have called these empty: **41**, **42**, **43** and **44**."
    sill = _said(page, "From outside, look along the sill")
    assert sill.done_when == "Done when you have also seen up: the **door sill lock**."
    texts = [step.text for step in steps_of(page)]
    assert texts.index(sill.text) < texts.index("Close the **aft cargo door**.")
    assert texts.index("Look round the door and call “door opens”.") < texts.index(
        "Open the **aft cargo door**."
    )
    assert _said(page, "Open the **aft cargo").done_when == "Done when it is fully open and held open."
    wind = _said(page, "Check that the wind")
    assert wind.done_when.startswith("Done when it is at most 40 kt (74 km/h). ")


@pytest.mark.parametrize("operation", Operation)
def test_two_persons_look_at_the_latch_of_a_door_that_was_closed(operation: Operation) -> None:
    """That a door can seem shut and not be latched: TSB A06C0204."""
    said = [(step.text, step.who) for step in steps_of(page_of(generated("SR-AFT", operation)))]
    at = said.index(("Close the **aft cargo door**.", "loader"))
    assert said[at + 1] == ("Look at the latch of the **aft cargo door**, not only at its handle.", "loader")
    assert said[at + 2] == (
        "Look at the latch of the **aft cargo door** too. It stays closed from now on.",
        "second person",
    )
    assert said[at + 3][0].startswith("Tell the supervisor")


def test_a_sentence_without_data_is_left_out() -> None:
    loaded = demo_with(
        "fleet/holds/SR-AFT.yaml", "    wind: {opening: 40 kt, open: 60 kt, source: GO 7-2}\n", ""
    )
    hold = loaded.network.holds["SR-AFT"]
    page = page_of(generated("SR-AFT", Operation.LOADING), hold, loaded.network)
    assert _said(page, "Check that the wind").done_when == ""


def test_one_word_in_the_data_changes_the_page() -> None:
    """Overridable in one direction only stops the other: what is true of the hold is what is said."""
    before = page_of(generated("SR-AFT", Operation.LOADING))
    assert (
        "the **inner guide** down; springs raise them" in _said(before, "Hold the **drive stick** to IN").why
    )
    loaded = demo_with(
        "fleet/holds/SR-AFT.yaml",
        "    override: [in]\n    moved-by: hand\n    reached-from: outside\n    returns: spring\n",
        "    moved-by: hand\n    reached-from: outside\n",
    )
    hold = loaded.network.holds["SR-AFT"]
    plan = plan_for(hold, Operation.LOADING)
    after = page_of(compose(plan, hold, loaded.network.hazards), hold, loaded.network)
    way_in = _said(after, "Hold the **drive stick** to IN").why
    assert way_in == "The unit pushes the **sill stop** down; a spring raises it behind the unit."
    assert any("Lower the **inner guide**" in step.text for step in steps_of(after))


def test_a_restraint_without_a_spring_stays_down() -> None:
    loaded = demo_with(
        "fleet/holds/SR-AFT.yaml",
        "    override: [in]\n    moved-by: hand\n    reached-from: outside\n    returns: spring\n",
        "    override: [in]\n    moved-by: hand\n    reached-from: outside\n",
    )
    hold = loaded.network.holds["SR-AFT"]
    page = page_of(_single_row(), hold, loaded.network)
    first, second = [s for s in steps_of(page) if s.text.startswith("Hold the **drive stick** to IN")][:2]
    assert first.why == (
        "The unit pushes the **sill stop** down; a spring raises it behind the unit."
        " The unit pushes the **inner guide** down; it stays down until you raise it."
    )
    assert "inner guide" not in second.why  # it is down already


STRAY = """\
procedure: stray
hold: SR-AFT
operation: loading
units:
  box: {type: AKH, bay: "41"}
steps:
  - note: Wait for the van.
  - warning: crushed-by-moving-unit
  - open: aft-door
  - caution: engines-running
  - section: move-units
  - present: box
  - push: {unit: box, crew: 3, through: [outside, "44"]}
  - warning: lock-missed
  - raise: lock-41
  - section: secure-and-close
  - warning: phone-near-fuelling
"""


def test_a_page_shows_what_an_author_wrote_even_where_it_is_amiss() -> None:
    page = page_of(written(STRAY))
    first, second = page.blocks
    assert (first.kind, second.kind, second.unit) == ("before-you-start", "cycle", "box")
    assert first.steps[0].text == "Wait for the van."
    assert [w.name for w in first.steps[1].warnings] == ["crushed-by-moving-unit"]
    assert [(w.name, w.signal) for w in page.warnings] == [
        ("engines-running", SignalWord.CAUTION),
        ("phone-near-fuelling", SignalWord.WARNING),
    ]
    assert second.steps[1].text.startswith("Push the unit IN with 3 people until the unit touches the **far")
    assert second.steps[1].if_not == "Stop. Do not pull and do not use fewer people."
    assert [w.name for w in second.steps[2].warnings] == ["lock-missed"]
