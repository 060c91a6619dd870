"""What several files say together: names and marks."""

from __future__ import annotations

from procgen.diagnostics import Place, Related, Severity
from procgen.load.files import FLEET_FILE, Opened


def named_like_file(one: Opened, key: str, expected: str) -> None:
    """A description is called like the file or folder it stands in."""
    named = one.root[key]
    if isinstance(named.data, str) and named.data != expected:
        one.log.doubt(
            "name-differs-from-file",
            f"the {key} is called “{named.data}” here, but “{expected}” by its place",
            named.place,
            f"write “{key}: {expected}”, or rename it on the disk",
            severity=Severity.ERROR,
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
        one.log.doubt(
            "demonstration-unmarked",
            "the fleet is a demonstration, but this file is not marked as one",
            mark.place if mark.given else one.root[next(iter(data), "")].key,
            "write “demonstration: true”",
            Related(Place(FLEET_FILE, ("demonstration",)), "the fleet's mark"),
            severity=Severity.ERROR,
        )


def no_revision_of_its_own(one: Opened) -> None:
    """A station that has released its manual has its revision from there, and states none by hand."""
    if "revision" in one.root:
        one.log.doubt(
            "revision-beside-releases",
            "the station has releases, and they say its revision: this block is shown nowhere",
            one.root["revision"].key,
            "take it out; say number, dates and reason to “procgen release”",
        )
