"""Every stated limit of several units is on the page: one that is left out would be taken for none."""

from __future__ import annotations

from procgen.pipeline.building import station_site
from procgen.pipeline.checking import check
from procgen.publish.together import TogetherRow, together
from tests.support import demo


def _rows(hold: str, unit: str = "kg") -> list[TogetherRow]:
    checked = check(demo())
    site = station_site(checked, checked.network.stations["K1B"])
    (found,) = [one for one in site.holds if one.hold.name == hold]
    return list(together(found, unit))


def test_every_limit_of_the_twin_row_hold() -> None:
    said = [(row.title, row.most.replace("\N{NO-BREAK SPACE}", " ")) for row in _rows("TR-FWD")]
    assert said[:5] == [
        ("forward hold", "at most 11 300 kg (24 912 lb)"),
        ("forward hold", "at most 2040 kg/m at any x, rows abreast added up"),
        ("forward hold", "one side at most 900 kg (1 984 lb) heavier"),
        ("forward hold", "two neighbours in one row at most 3 100 kg (6 834 lb)"),
        ("doorway", "at most 2 600 kg (5 732 lb)"),
    ]
    assert [row.where for row in _rows("TR-FWD")[5:]] == [
        "from the forward end to x 9.88 m",
        "from the forward end to x 11.52 m",
        "from the forward end to x 13.19 m",
        "from the forward end to x 14.92 m",
    ]
    assert all(row.source is not None for row in _rows("TR-FWD"))


def test_a_zone_along_x_names_the_positions_that_stand_in_it() -> None:
    """12.20 m to 14.40 m: 41 ends at 12.46 m, 43 begins at 14.14 m, 44 stands aft of it."""
    (frames,) = [row for row in _rows("SR-AFT") if row.title == "frames 40 to 44"]
    assert frames.positions == ("41", "42", "43")
    assert frames.where == "from x 12.20 m to 14.40 m"
    assert not frames.is_sum
    assert "counting what of each unit stands there" in frames.most
