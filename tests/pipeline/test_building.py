"""What a station makes stricter is what its pages say."""

from __future__ import annotations

from procgen.model.words import Operation
from procgen.pipeline.building import as_worked_at, station_site
from procgen.pipeline.checking import check
from tests.support import demo, demo_files, demo_hold, load_texts


def test_a_station_tightens_the_wind_limits_of_its_doors_and_only_there() -> None:
    """K1B opens doors up to 35 kt and leaves them open up to 50 kt; the door itself takes 40 and 60."""
    stations = demo().network.stations
    door = as_worked_at(stations["K1B"], demo_hold("SR-AFT")).doors["aft-door"]
    assert (
        str(door.wind.opening and door.wind.opening.quantity),
        door.wind.open and str(door.wind.open.quantity),
    ) == (
        "35 kt",
        "50 kt",
    )
    assert as_worked_at(stations["N4T"], demo_hold("SR-AFT")) == demo_hold("SR-AFT")


def test_a_looser_limit_of_a_station_never_reaches_a_page() -> None:
    files = dict(demo_files())
    files["K1B/station.yaml"] = files["K1B/station.yaml"].replace("opening: 35 kt", "opening: 70 kt")
    network = load_texts(files).network
    door = as_worked_at(network.stations["K1B"], network.holds["SR-AFT"]).doors["aft-door"]
    assert door.wind.opening == demo_hold("SR-AFT").doors["aft-door"].wind.opening


def test_the_steps_of_a_station_name_its_own_wind_limit() -> None:
    checked = check(demo())
    said = {}
    for code in ("K1B", "N4T"):
        site = station_site(checked, checked.network.stations[code])
        (hold,) = [one for one in site.holds if one.hold.name == "SR-AFT"]
        page = next(p for p in hold.pages if p.operation is Operation.LOADING and p.generated)
        said[code] = " ".join(s.done_when for block in page.blocks for s in block.steps)
    assert "at most 35 kt (64 km/h)" in said["K1B"]
    assert "at most 40 kt (74 km/h)" in said["N4T"]
