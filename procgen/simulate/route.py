"""The way a move step names, read into hops; and which unit it moves."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from procgen.model.step import Drive, Push, Stow
from procgen.model.words import OUTSIDE
from procgen.simulate.ledger import Sort
from procgen.simulate.names import did_you_mean, either, nearest
from procgen.simulate.scene import Hop
from procgen.simulate.work import Work

Way = Drive | Push | Stow
"""The steps that name the places passed."""


@dataclass(frozen=True, slots=True)
class Route:
    """The hops of a step up to the first fault, where it starts and where it says it ends.

    `sound` is False where the way is not one that a unit can take in one step: what follows the fault is
    guesswork, so that nothing but the unit's whereabouts is concluded from it. `start` and `end` are None
    where they cannot be told.
    """

    hops: tuple[Hop, ...]
    start: str | None
    end: str | None
    sound: bool = True


def read_route(work: Work, step: Way, doing: str) -> Route:
    """Read the places passed; the first fault in them is a finding. Only what is carried may turn."""
    places = _places(work, step, doing)
    end = places[-1] if places else None
    if len(places) < 2:
        work.find(
            "step-without-effect",
            f"{doing} nowhere: it names {'no place' if not places else 'one place only'}",
            suggestion="name the places passed, first to last",
            unit=step.unit,
        )
        return Route((), None, end, sound=False)
    hops: list[Hop] = []
    for start, to in pairwise(places):
        if start is None or to is None:
            return Route(tuple(hops), places[0], end, sound=False)
        go = work.scene.neighbours.get((start, to))
        if go is None:
            _off_lane(work, step, start, to, doing)
            return Route(tuple(hops), places[0] if hops else None, end, sound=False)
        hop = Hop(start, to, go)
        if hops and hops[0].go is not go and not isinstance(step, Stow):
            _turns(work, step, hops[0], hop, doing)
            return Route(tuple(hops), places[0], end, sound=False)
        hops.append(hop)
    return Route(tuple(hops), places[0], end)


def _off_lane(work: Work, step: Way, start: str, to: str, doing: str) -> None:
    beside = [other for (place, other) in work.scene.neighbours if place == start]
    work.find(
        "move-not-along-a-lane",
        f"{doing} from {start} to {to}, but no lane leads straight from {start} to {to}",
        suggestion=f"from {start} go to {either(beside)}" if beside else "name the bays of a lane in order",
        against=work.scene.hold.lanes[0].place if work.scene.hold.lanes else work.scene.hold.place,
        because="the lanes of the hold",
        unit=step.unit,
        bay=to,
    )


def _turns(work: Work, step: Way, first: Hop, hop: Hop, doing: str) -> None:
    work.find(
        "move-changes-direction",
        f"{doing} {first.go} and then {hop.go}, from {hop.start} to {hop.end}, in one step",
        suggestion=f"end this step at {hop.start} and move on in a step of its own, or correct the bays",
        unit=step.unit,
        bay=hop.start,
    )


def _places(work: Work, step: Way, doing: str) -> list[str | None]:
    """The places by their names; an unknown one is taken for the only near one that a lane leads to."""
    bays = work.scene.hold.bays
    places: list[str | None] = []
    for index, name in enumerate(step.through):
        if name == OUTSIDE or name in bays:
            places.append(name)
            continue
        work.find(
            "unknown-in-hold",
            f"{doing} through “{name}”, a bay which {work.scene.hold.name} does not have",
            suggestion=did_you_mean(name, (OUTSIDE, *bays), "bay"),
            bay=name,
            unit=step.unit,
        )
        places.append(_meant(work, places[-1] if places else None, name, step.through[index + 1 :]))
    return places


def _meant(work: Work, before: str | None, name: str, after: tuple[str, ...]) -> str | None:
    """The place that fits between its neighbours, the nearest by name where several do."""
    lanes = work.scene.neighbours
    fitting = [
        place
        for place in (OUTSIDE, *work.scene.hold.bays)
        if (before is None or (before, place) in lanes) and (not after or (place, after[0]) in lanes)
    ]
    near = nearest(name, fitting)
    if len(near) == 1:
        return near[0]
    return fitting[0] if len(fitting) == 1 else None


def read_unit(work: Work, name: str, start: str | None, doing: str) -> str | None:
    """The unit a move step means: the one it names, or of an unknown name the one that stands there."""
    if is_known(work, name, doing):
        return name
    there = [unit for unit, place in work.state.units.items() if place == start]
    near = nearest(name, there)
    meant = there if len(there) == 1 else near
    return meant[0] if len(meant) == 1 else None


def _units(work: Work) -> tuple[str, ...]:
    procedure = work.scene.procedure
    return tuple(dict.fromkeys((*procedure.units, *procedure.aboard, *work.state.units)))


def is_known(work: Work, name: str, doing: str) -> bool:
    """Whether a unit is known; one that is to stay where it is must not be moved."""
    known = _units(work)
    if name not in known:
        work.find(
            "unknown-in-hold",
            f"{doing}, a unit which this procedure does not have",
            suggestion=did_you_mean(name, known, "unit"),
            unit=name,
        )
        return False
    procedure = work.scene.procedure
    moves = name in procedure.units or name in procedure.put_back
    if not moves and not work.excused(Sort.PLAN, name, ""):
        stays = procedure.aboard.get(name)
        work.find(
            "unit-not-planned",
            f"{doing}, which is to stay where it is",
            suggestion="name it under “units” if it is to move, or name the unit that was meant",
            against=stays.place if stays else procedure.place,
            because="the units that stay aboard",
            unit=name,
        )
        work.doubt(Sort.PLAN, name)
    return True


def wrong_verb_for_load(work: Work, step: Way, doing: str) -> bool:
    """Whether loose pieces are driven or pushed, or something else is stowed: then nothing else is said."""
    unit_type = work.scene.type_of(step.unit)
    if unit_type is None or unit_type.loose is isinstance(step, Stow):
        return False
    what, verb = ("a loose load", "stow") if unit_type.loose else ("no loose load", "drive or push")
    if not work.excused(Sort.FIT, step.unit, ""):
        work.find(
            "moved-by-wrong-verb",
            f"{doing}, but {unit_type.code} is {what}",
            suggestion=f"{verb} it, or give {step.unit} the type that was meant",
            against=unit_type.place,
            because=f"{unit_type.code} is {what}",
            unit=step.unit,
        )
        work.doubt(Sort.FIT, step.unit)
    if step.through and (step.through[-1] == OUTSIDE or step.through[-1] in work.scene.hold.bays):
        work.put_unit(step.unit, step.through[-1])
        work.settle(Sort.UNIT, step.unit)
    else:
        work.doubt(Sort.UNIT, step.unit)
    return True
