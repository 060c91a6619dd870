"""Items out of service as they are named on the command line."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches

from procgen.diagnostics import ProcgenError
from procgen.model.hold import Hold
from procgen.model.step import OutOfService
from procgen.model.words import Failure
from procgen.results.out_of_service import possible_failures

_HELP = {
    Failure.DOWN: "cannot be raised",
    Failure.UP: "cannot be lowered",
    Failure.MISSING: "is not there",
    Failure.DEAD: "does not work",
}


def read_failures(hold: Hold, texts: Sequence[str]) -> tuple[OutOfService, ...]:
    """Items out of service, each written `NAME` or `NAME=FAILURE`, also several with commas between.

    A name alone is enough where an item can fail in one way only. Raises `ProcgenError` that says what
    could have been meant.
    """
    found: dict[str, OutOfService] = {}
    for text in (part for written in texts for part in written.split(",") if part):
        name, _, way = text.partition("=")
        one = OutOfService(name, _failure(hold, name, way))
        if name in found and found[name] != one:
            raise ProcgenError(f"{name} cannot be {found[name].failure} and {one.failure}: name it once")
        found[name] = one
    return tuple(found.values())


def _failure(hold: Hold, name: str, way: str) -> Failure:
    known = possible_failures(hold)
    if name not in known:
        near = get_close_matches(name, known, n=1)
        hint = f"did you mean {near[0]}?" if near else f"items: {', '.join(known)}"
        raise ProcgenError(f"{hold.name} has no item {name} that could be out of service; {hint}")
    ways = known[name]
    choice = ", ".join(f"{name}={one} (it {_HELP[one]})" for one in ways)
    if not way and len(ways) > 1:
        raise ProcgenError(f"{name} can be out of service in {len(ways)} ways, say which: {choice}")
    if way and way not in tuple(ways):
        raise ProcgenError(f"{name} cannot be “{way}”; write {choice}")
    return Failure(way) if way else ways[0]
