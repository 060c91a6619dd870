"""Wind limits of doors in every unit that wind is told in, and notes (limits.md, section 9)."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.diagnostics import NOWHERE
from procgen.limits.figuring import whence
from procgen.limits.shown import shown
from procgen.model.hold import Door, Hold
from procgen.model.stated import Stated
from procgen.model.station import Station
from procgen.results.figures import Figure, FigureRow, FigureTable, Other
from procgen.units import Quantity

SYMBOLS = ("kt", "m/s", "km/h")
"""The units that wind is told in."""
_FACTORS = {
    ("kt", "m/s"): "1852 / 3600",
    ("kt", "km/h"): "1.852",
    ("m/s", "kt"): "3600 / 1852",
    ("m/s", "km/h"): "3.6",
    ("km/h", "kt"): "1 / 1.852",
    ("km/h", "m/s"): "1 / 3.6",
}


def wind_table(hold: Hold, stations: Sequence[Station] = ()) -> FigureTable:
    """For each door, the wind up to which it may be opened and may stand open, in knots, metres a second and
    kilometres an hour, each from the number as it was written; then as each of `stations` tightens it.
    """
    rows = [
        _row(door, words, door_limit, station)
        for door in hold.doors.values()
        for station in (None, *(one for one in stations if one.wind is not None))
        for words, door_limit in (("to open it", door.wind.opening), ("to leave it open", door.wind.open))
    ]
    known = tuple(row for row in rows if row is not None)
    return FigureTable(
        name="wind",
        title="Wind limits of the doors",
        heads=("door", "wind", "station"),
        columns=SYMBOLS,
        rows=known,
        remarks=() if known else ("The description states no wind limit.",),
    )


def _row(door: Door, words: str, limit: Stated | None, station: Station | None) -> FigureRow | None:
    wind = station.wind if station is not None else None
    own = None if wind is None else (wind.opening if words == "to open it" else wind.open)
    place = wind.place if wind is not None else NOWHERE
    tightened = Stated(own, None, place) if own is not None else None
    both = [("the door's own", limit), (f"station {station.code}" if station else "", tightened)]
    given = [(name, one) for name, one in both if one is not None]
    if not given or (station is not None and tightened is None):
        return None
    # Of equal ones the door's own counts: it has a source.
    (name, least), *rest = sorted(given, key=lambda pair: pair[1].quantity)
    reason = f" ({wind.reason})" if wind is not None and least is tightened else ""
    others = tuple(Other(title, str(one.quantity), "", *whence([one])) for title, one in rest)
    figures = tuple(_figure(least, symbol, name + reason, others) for symbol in SYMBOLS)
    return FigureRow((door.title, words, station.code if station is not None else "any"), figures)


def _figure(stated: Stated, symbol: str, governs: str, others: tuple[Other, ...]) -> Figure:
    written: Quantity = stated.quantity
    number = written.to(symbol)
    sources, places = whence([stated])
    same = written.unit.symbol == symbol
    factor = _FACTORS.get((written.unit.symbol, symbol), "1")
    return Figure(
        number=written if same else number,
        decimals=0 if number.value.denominator == 1 else 1,
        governs=governs,
        reckoning=f"stated: {written}" if same else f"{written}: × {factor} = {shown(number)}",
        others=others,
        sources=sources,
        places=places,
    )


def notes_table(hold: Hold) -> FigureTable:
    """Notes on dangerous goods, live loads and loading: data with their source, never computed."""
    rows = tuple(
        FigureRow(
            (note.about.value.replace("-", " "), note.text),
            (),
            (note.source,) if note.source is not None else (),
            (note.place,),
        )
        for note in hold.notes
    )
    remarks = () if rows else ("The description gives no notes.",)
    return FigureTable("notes", "Notes", ("about", "note"), (), rows, remarks)
