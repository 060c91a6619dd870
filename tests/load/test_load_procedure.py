"""One procedure from beside the stations folder."""

from __future__ import annotations

from procgen.load import load_procedure
from tests.load.test_rules import STEPS
from tests.support import demo, demo_files, schemas


def test_the_same_text_gives_the_same_record() -> None:
    text = demo_files()[STEPS]
    procedure, document, findings = load_procedure("other.yaml", text, demo().network, schemas())
    assert findings == ()
    assert procedure == demo().procedures[STEPS]
    assert procedure is not None
    assert procedure.place.file == document.file == "other.yaml"


def test_it_may_be_for_a_hold_that_no_station_works_and_be_called_as_it_likes() -> None:
    text = demo_files()[STEPS].replace("procedure: sr-aft-two-units", "procedure: mine")
    procedure, _, findings = load_procedure("x/y.json", text, demo().network, schemas())
    assert findings == ()
    assert procedure is not None
    assert procedure.name == "mine"


def test_what_is_wrong_is_found() -> None:
    text = demo_files()[STEPS].replace("hold: SR-AFT", "hold: SR-AF").replace("- lower: sill", "- lowr: sill")
    procedure, _, findings = load_procedure("other.yaml", text, demo().network, schemas())
    assert procedure is None
    assert [finding.rule for finding in findings] == ["unknown-name", "unknown-verb"]


def test_bays_of_the_units_are_known_but_names_in_steps_are_left_to_the_simulation() -> None:
    text = demo_files()[STEPS].replace('bay: "42"', 'bay: "24"').replace("raise: lock-41", "raise: lock-14")
    _, _, findings = load_procedure("other.yaml", text, demo().network, schemas())
    assert [finding.message for finding in findings] == ["there is no bay “24”"]


def test_a_text_that_is_no_procedure() -> None:
    procedure, _, findings = load_procedure("other.yaml", "- 1\n- 2\n", demo().network, schemas())
    assert procedure is None
    assert [finding.rule for finding in findings] == ["wrong-type"]
