"""Loose loads, nets, named doors and units that make way, in words."""

from __future__ import annotations

import pytest

from procgen.load import load_procedure
from procgen.model.step import Check, Present, Procedure, Stow, Warn
from procgen.model.words import Operation
from procgen.results.page import PageStep, ProcedurePage
from procgen.results.plan import Plan
from procgen.results.state import state_at_rest
from procgen.write import compose
from tests.support import demo_files, load_texts, schemas
from tests.write.derived import page_of, steps_of
from tests.write.language import MODALS, sentences, words
from tests.write.looking import assert_checks_in_time, assert_warnings_in_place

HOLD = """\
hold: BK
title: Bulk hold
aircraft: SKUA-180
demonstration: true
sources:
  WB: {title: invented, issue: "1", date: "2026-01-01"}
floor: {x: [20 m, 24 m], y: [-1 m, 1 m], height: 1.1 m, surface: flat}
load-factors: {forward: 1.5 g, aft: 1.5 g, left: 1.5 g, right: 1.5 g, up: 1.5 g, kind: limit, source: WB 1}
doors:
  front-door: {name: front bulk door, side: right,
    x: [20 m, 21 m], clear: {width: 1 m, height: 1 m}, sill: 2 m}
  rear-door: {name: rear bulk door, side: right,
    x: [23 m, 24 m], clear: {width: 1 m, height: 1 m}, sill: 2 m}
bays:
  "51": {x: [20 m, 22 m], y: [-1 m, 1 m], position: true, bulk: true, door: front-door}
  "52": {x: [22 m, 24 m], y: [-1 m, 1 m], position: true, bulk: true, door: rear-door}
lanes:
  - {go: in, through: [outside, "51"]}
  - {go: in, through: [outside, "52"]}
  - {go: aft, through: ["51", "52"]}
restraints:
  net-51: {name: net 51, kind: net, between: [outside, "51"], stops: [in, out],
    moved-by: hand, reached-from: inside, at-rest: lowered}
  net-52: {name: net 52, kind: net, between: ["51", "52"], stops: [forward, aft],
    moved-by: hand, reached-from: inside, at-rest: lowered}
positions:
  "51": {held-by: [net-51, net-52], max: {LS: 400 kg}, source: WB 2}
  "52": {held-by: [net-52], max: {LS: 500 kg}, source: WB 2}
"""
FLEET = (
    "fleet/fleet.yaml",
    "unit-types:\n",
    "unit-types:\n  LS: {title: loose load, loose: true, max-gross: 500 kg, source: ULD 9}\n",
)

LOADING = """\
procedure: by-hand
hold: BK
operation: loading
units:
  u52: {type: LS, bay: "52"}
  u51: {type: LS, bay: "51"}
steps:
  - section: prepare
  - open: front-door
  - section: move-units
  - present: {unit: u52, door: front-door}
  - stow: {unit: u52, crew: 3, through: [outside, "51", "52"]}
  - fit: net-52
  - present: {unit: u51, door: front-door}
  - stow: {unit: u51, crew: 3, through: [outside, "51"]}
  - fit: net-51
  - section: secure-and-close
  - check: everyone-out
  - close: front-door
  - check: {latched: front-door, by: closer}
  - check: {latched: front-door, by: second-person}
"""
UNLOADING = """\
procedure: by-hand
hold: BK
operation: unloading
units:
  u51: {type: LS, bay: "51"}
steps:
  - section: prepare
  - open: front-door
  - section: move-units
  - remove: net-51
  - stow: {unit: u51, crew: 2, through: ["51", outside]}
  - section: secure-and-close
  - check: everyone-out
  - close: front-door
  - check: {latched: front-door, by: closer}
  - check: {latched: front-door, by: second-person}
"""


def _made(text: str) -> tuple[Procedure, ProcedurePage]:
    """A plan for the bulk hold, composed, and its page."""
    file, find, put = FLEET
    files = {**demo_files(), file: demo_files()[file].replace(find, put), "fleet/holds/BK.yaml": HOLD}
    loaded = load_texts(files)
    assert [f for f in loaded.findings if f.place.file == "fleet/holds/BK.yaml"] == []
    network = loaded.network
    plain, _, findings = load_procedure("by-hand.yaml", text, network, schemas())
    assert plain is not None, findings
    assert findings == ()
    hold = network.holds["BK"]
    aboard = {u.name: u.bay for u in plain.units.values()} if plain.operation is Operation.UNLOADING else {}
    aboard |= {u.name: u.bay for u in plain.aboard.values()}
    start = state_at_rest(hold, aboard)
    plan = Plan("BK", plain.operation, plain.units, start, plain.steps, plain.aboard)
    composed = compose(plan, hold, network.hazards)
    assert_warnings_in_place(composed, hold, network.hazards)
    assert_checks_in_time(composed, hold, network.hazards)
    return composed, page_of(composed, hold, network)


def _said(page: ProcedurePage, start: str) -> PageStep:
    return next(step for step in steps_of(page) if step.text.startswith(start))


def test_a_loose_load_is_checked_brought_to_its_door_and_stowed() -> None:
    procedure, page = _made(LOADING)
    assert _said(page, "Check the loose load").text == (
        "Check the loose load: every piece closed, no damage, no leak, no water, no snow."
    )
    assert _said(page, "Compare the loose load with the loading instruction")
    assert _said(page, "Bring").text == (
        "Bring the loose load for **52** (LS) to the sill of the **front bulk door**."
    )
    stow = _said(page, "Go in. Stow")
    assert stow.text == "Go in. Stow the loose load in section **52** by hand with 3 people."
    assert stow.done_when == "Done when no piece stands outside section **52** and none can fall."
    assert stow.who == "loader"
    fit = _said(page, "Fit **net 52**")
    assert fit.done_when == "Done when it is tight at every point."
    assert [step.then for step in steps_of(page) if step.text.startswith("Fit")] == ["", "Then come out."]
    own = [block.unit for block in page.blocks for step in block.steps if step.text.startswith("Fit")]
    assert own == ["u52", "u51"]  # a load is secured in its own block
    warned = {step.hazard for step in procedure.steps if isinstance(step, Warn)}
    assert {"lifting-and-kneeling", "pieces-fall", "net-under-load"} <= warned
    assert {"crushed-by-moving-unit", "pulling-by-hand", "unit-out-of-control"}.isdisjoint(warned)
    assert "work-at-two-doors" not in warned
    made = [step.condition for step in procedure.steps if isinstance(step, Check)]
    assert made.index("stowing-agreed") < made.index("locks-verified") < made.index("everyone-out")
    assert made[-1] == "door-may-close"
    assert "doors-agreed" not in made  # one of its doors is opened
    look = _said(page, "Second person")
    assert "**net 51**" in look.done_when
    assert "**net 52**" in look.done_when


def test_a_loose_load_is_taken_out_from_the_top() -> None:
    _, page = _made(UNLOADING)
    (block,) = [block for block in page.blocks if block.kind == "cycle"]
    assert (block.title, block.intro) == ("Unload 51", "To free it, remove **net 51**.")
    texts = [(step.text, step.done_when, step.then) for step in block.steps]
    assert texts[-1] == (
        "Take the loose load out of section **51** by hand with 2 people, from the top down.",
        "Done when nothing is left in section **51**.",
        "Then come out.",
    )
    assert texts[-2][0] == "Go in. Remove **net 51**."


@pytest.mark.parametrize("text", [LOADING, UNLOADING])
def test_sentences_are_short_and_leave_nothing_open(text: str) -> None:
    _, page = _made(text)
    for step in steps_of(page):
        for sentence in sentences(f"{step.text} {step.why} {step.done_when} {step.if_not}"):
            assert words(sentence) <= 20, sentence
            assert not MODALS.search(sentence), sentence


@pytest.mark.parametrize(
    ("state", "text", "if_not"),
    [
        ("lowered", "Check that **net 51** and **net 52** are removed.", "Remove what is fitted."),
        ("raised", "Check that **net 51** and **net 52** are fitted.", "Fit what is removed."),
    ],
)
def test_a_look_at_nets_says_fitted_and_removed(state: str, text: str, if_not: str) -> None:
    look = f"  - check: {{{state}: [net-51, net-52]}}\n  - section: move-units\n"
    _, page = _made(LOADING.replace("  - section: move-units\n", look))
    step = _said(page, "Check that **net")
    assert (step.text, step.if_not) == (text, if_not)


def test_a_load_that_makes_way_comes_out_for_now_and_goes_back() -> None:
    text = LOADING.replace('  u51: {type: LS, bay: "51"}\n', "").replace(
        "steps:\n", 'aboard:\n  u51: {type: LS, bay: "51"}\nsteps:\n'
    )
    text = text.replace(
        "  - present: {unit: u52",
        '  - remove: net-51\n  - stow: {unit: u51, crew: 3, through: ["51", outside]}\n'
        "  - present: {unit: u52",
    )
    _, page = _made(text)
    heads = [(block.title, block.intro) for block in page.blocks if block.kind == "cycle"]
    assert heads[0] == (
        "Take 51 out for now",
        "To free it, remove **net 51**. It makes way for others and goes back later: set it apart.",
    )
    assert heads[1][0] == "Load 52"
    assert heads[2] == ("Put 51 back", "Secure it with **net 51**.")
    assert page.folds == ()


def test_steps_name_the_door_only_where_there_are_several() -> None:
    procedure, _ = _made(LOADING)
    presents = [step for step in procedure.steps if isinstance(step, Present)]
    assert [step.door for step in presents] == ["front-door", "front-door"]
    assert [step.crew for step in procedure.steps if isinstance(step, Stow)] == [3, 3]
