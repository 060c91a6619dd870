"""What the demonstration says arrives in the records."""

from __future__ import annotations

from fractions import Fraction

from procgen.model.stated import SourceRef
from procgen.model.step import Check, CheckItems, Drive, Open, Section, SetControl, Warn
from procgen.model.words import (
    LoadDirection,
    Operation,
    RatingKind,
    RestraintState,
    SectionName,
    Side,
    Stand,
    Travel,
)
from procgen.units import of
from tests.load.full import FILES, HAZARDS
from tests.support import demo, demo_hold, load_texts, text_at


def test_hold() -> None:
    hold = demo_hold("SR-AFT")
    assert (hold.name, hold.title, hold.aircraft, hold.demonstration) == (
        "SR-AFT",
        "Aft container hold",
        "SKUA-180",
        True,
    )
    assert hold.floor.rectangle.x.low == of("10.90", "m")
    assert hold.floor.running is not None
    assert str(hold.floor.running.quantity) == "760 kg/m"
    assert hold.floor.running.source == SourceRef("WB", "3-4")
    assert hold.load_factors.kind is RatingKind.LIMIT
    assert hold.load_factors.by_direction[LoadDirection.UP].quantity == of(2, "g")
    assert hold.load_factors.by_direction[LoadDirection.UP].source == SourceRef("WB", "2-1")
    assert [lane.through for lane in hold.lanes] == [("outside", "44"), ("44", "43", "42", "41")]
    assert hold.bays["44"].door == "aft-door"
    assert hold.hand_moves is None


def test_door_and_power() -> None:
    hold = demo_hold("SR-AFT")
    door = hold.doors["aft-door"]
    assert door.side is Side.RIGHT
    assert door.wind.opening is not None
    assert door.wind.opening.quantity == of(40, "kt")
    assert door.close_needs == {"sill-lock": RestraintState.RAISED}
    assert hold.power is not None
    assert (hold.power.switch, hold.power.on, hold.power.off) == ("power-switch", "on", "off")
    assert hold.power.interlock_moves_while_on


def test_controls_and_drives() -> None:
    hold = demo_hold("SR-AFT")
    assert hold.controls["stick"].hold_to_run
    assert hold.controls["stick"].rest == "centre"
    assert hold.controls["stick"].behind == "control-panel"
    assert hold.controls["sill-handle"].returns_when_clear
    assert not hold.controls["power-switch"].is_held
    assert hold.drives["lane-drive"].go == {Travel.FORWARD: "forward", Travel.AFT: "aft"}


def test_restraints() -> None:
    restraints = demo_hold("SR-AFT").restraints
    guide = restraints["inner-guide"]
    assert guide.between == ("outside", "44")
    assert guide.override == {Travel.IN}
    assert guide.by_hand
    assert guide.reached_from is Stand.OUTSIDE
    assert guide.returns_by_spring
    assert restraints["side-guide"].guides == (("outside", "44"),)
    assert restraints["side-guide"].lowered_by == {"guide-switch": "forward"}
    assert restraints["side-guide"].powered
    assert restraints["rails"].beside == ("41", "42", "43")
    assert restraints["rails"].fixed
    assert restraints["rails"].at_rest is RestraintState.RAISED
    rating = restraints["lock-41"].rating
    assert list(rating) == [LoadDirection.FORWARD, LoadDirection.AFT, LoadDirection.UP]
    assert rating[LoadDirection.UP].quantity.si == Fraction(8900)


def test_the_closing_state_is_that_at_rest_unless_said() -> None:
    restraints = demo_hold("TR-FWD").restraints
    assert restraints["lock-11L"].closing_state is RestraintState.LOWERED
    assert restraints["forward-sill-lock"].closing_state is RestraintState.RAISED
    assert restraints["forward-doorway-guide"].closing_state is None


def test_outside_is_the_first_of_two_places_however_written() -> None:
    hold = load_texts(FILES, HAZARDS).network.holds["FULL"]
    assert hold.restraints["stop"].between == ("outside", "B")


def test_numbers_keep_the_source_nearest_to_them() -> None:
    hold = load_texts(FILES, HAZARDS).network.holds["FULL"]
    factors = hold.load_factors.by_direction
    assert factors[LoadDirection.FORWARD].source == SourceRef("WB", "2-2")
    assert factors[LoadDirection.AFT].source == SourceRef("WB", "2-1")
    assert hold.positions["A"].max_mass["K"].source == SourceRef("WB", "5-3")
    assert hold.positions["A"].max_mass["AKE"].source == SourceRef("WB", "5-1")


def test_places_lead_to_the_text() -> None:
    loaded = demo()
    hold = loaded.network.holds["SR-AFT"]
    assert text_at(loaded, hold.positions["44"].max_mass["K"].place) == "1000 kg"
    assert hold.floor.running is not None
    assert text_at(loaded, hold.floor.running.place) == "760 kg/m"
    (procedure,) = loaded.network.stations["K1B"].procedures
    index = procedure.steps.index(Open("aft-door"))
    assert procedure.steps[index].place.route == ("steps", index)
    assert text_at(loaded, procedure.steps[index].place).startswith("open: aft-door")


def test_fleet() -> None:
    network = demo().network
    assert network.airline == "Tern Air Lines (invented)"
    assert list(network.unit_types)[:3] == ["AKE", "AKH", "PKC"]
    assert network.unit_types["AKH"].base is network.bases["K"]
    assert network.aircraft["SKUA-180"].title == "Skua 180"


def test_stations() -> None:
    stations = demo().network.stations
    assert {"TR-FWD", "SR-AFT"} < set(stations["K1B"].holds)
    assert stations["N4T"].mass_unit == "lb"
    assert stations["K1B"].revision.number == 3
    assert [contact.role for contact in stations["N4T"].contacts] == ["loading supervisor", "load control"]
    assert [one.name for one in stations["N4T"].procedures] == ["sr-aft-evening"]


def test_procedure() -> None:
    (procedure,) = demo().network.stations["K1B"].procedures
    assert (procedure.name, procedure.hold) == ("sr-aft-two-units", "SR-AFT")
    assert procedure.operation is Operation.LOADING
    assert not procedure.generated
    assert [(unit.name, unit.unit_type, unit.bay) for unit in procedure.units.values()] == [
        ("u41", "AKH", "41"),
        ("u42", "AKH", "42"),
    ]
    assert Section(SectionName.PREPARE) in procedure.steps
    assert Warn("warning", "wind-catches-door") in procedure.steps
    assert SetControl("power-switch", "on") in procedure.steps
    assert Check("unit-serviceable", "u41") in procedure.steps
    assert Check("path-clear") in procedure.steps
    assert CheckItems(("side-guide",), RestraintState.RAISED) in procedure.steps
    hold = {"stick": "forward", "guide-switch": "forward"}
    assert Drive("u42", hold, ("44", "43", "42")) in procedure.steps


def test_procedures_by_file() -> None:
    loaded = demo()
    assert loaded.procedures["K1B/procedures/sr-aft-two-units.yaml"].name == "sr-aft-two-units"


def test_a_procedure_in_json() -> None:
    text = (
        '{"procedure": "j", "hold": "FULL", "operation": "loading",\n'
        ' "units": {"u1": {"type": "AKE", "bay": "A"}}, "steps": [{"note": "caf\\u00e9 \\ud83d\\ude00"}]}'
    )
    loaded = load_texts({**FILES, "T1A/procedures/j.json": text}, HAZARDS)
    assert loaded.findings == ()
    note = loaded.procedures["T1A/procedures/j.json"].steps[0]
    assert getattr(note, "text", "") == "café 😀"
