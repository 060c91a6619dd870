"""What several files say together: names, marks and the holds of a station."""

from __future__ import annotations

from procgen.diagnostics import Place, Related
from procgen.load.files import FLEET_FILE, Opened


def named_like_file(one: Opened, key: str, expected: str) -> None:
    """A description is called like the file or folder it stands in."""
    named = one.root[key]
    if isinstance(named.data, str) and named.data != expected:
        one.log.wrong(
            "name-differs-from-file",
            f"the {key} is called “{named.data}” here, but “{expected}” by its place",
            named.place,
            f"write “{key}: {expected}”, or rename it on the disk",
        )


def once(one: Opened, first: dict[str, Opened], kind: str) -> None:
    """Two files do not describe one thing; `first` remembers who came first."""
    if one.name in first:
        one.log.wrong(
            "name-used-twice",
            f"two files describe the {kind} “{one.name}”",
            one.root[kind].place,
            "delete one, or give it its own name",
            Related(first[one.name].root[kind].place, "the first one"),
        )
    first.setdefault(one.name, one)


def marked(one: Opened, fleet_is_demonstration: bool) -> None:
    """What belongs to a demonstration fleet says so itself."""
    mark, data = one.root["demonstration"], one.root.data
    if not fleet_is_demonstration or not isinstance(data, dict) or one.log.misshapen(one.root.place):
        return
    if mark.data is not True:
        one.log.wrong(
            "demonstration-not-marked",
            "the fleet is a demonstration, but this file is not marked as one",
            mark.place if mark.given else one.root[next(iter(data), "")].key,
            "write “demonstration: true”",
            Related(Place(FLEET_FILE, ("demonstration",)), "the fleet's mark"),
        )


def worked_here(one: Opened, station: Opened) -> None:
    """A station has procedures for the holds it works."""
    worked, hold = station.root["holds"], one.root["hold"]
    names = [element.data for element in worked.elements()]
    unsure = not names or station.log.spoilt(worked.place) or one.log.spoilt(hold.place)
    if isinstance(hold.data, str) and hold.data not in names and not unsure:
        one.log.wrong(
            "hold-not-worked-here",
            f"the procedure is for hold “{hold.data}”, which this station does not work",
            hold.place,
            f"add “{hold.data}” to the station's holds, or move the procedure to a station that works it",
            Related(worked.place, "the holds of the station"),
        )
