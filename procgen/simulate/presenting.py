"""Units brought to a door."""

from __future__ import annotations

from procgen.model.hold import Door
from procgen.model.step import Present
from procgen.model.words import OUTSIDE
from procgen.simulate.ledger import Sort
from procgen.simulate.names import did_you_mean, either, nearest
from procgen.simulate.reach import need_door
from procgen.simulate.route import is_known
from procgen.simulate.work import Work


def present(work: Work, step: Present) -> None:
    """Bring a unit to the sill of a door that is open."""
    name, doing = step.unit, f"presents {step.unit}"
    doors = _doors(work, step, doing)
    before = len(work.findings)
    need_door(work, tuple(door.name for door in doors), doing)
    certain = len(doors) == 1 and len(work.findings) == before  # else another door may have been meant
    if not is_known(work, name, doing):
        waiting = [unit for unit in work.scene.procedure.units if unit not in work.state.units]
        near = nearest(name, waiting)
        if len(near) != 1:
            work.owe(Sort.UNIT, OUTSIDE)
            return
        name = near[0]
    place = work.state.units.get(name)
    if place not in (None, OUTSIDE) and work.ledger.in_doubt(Sort.START, name):
        return  # it was moved in too early, which has been said
    set_aside = place == OUTSIDE and _may_be_brought_back(work, name, doors)
    if place is not None and not set_aside and not work.excused(Sort.UNIT, name, ""):
        where = "at the door already" if place == OUTSIDE else f"in the hold already, in {place}"
        work.find(
            "unit-presented-twice",
            f"{doing}, which is {where}",
            suggestion="delete this step, or name the unit that was meant",
            unit=name,
        )
        work.owe(Sort.UNIT, OUTSIDE)
        return
    work.put_unit(name, OUTSIDE, doors[0].name if certain else None)
    work.settle(Sort.UNIT, name)
    if name != step.unit:
        work.doubt(Sort.UNIT, name)


def _may_be_brought_back(work: Work, unit: str, doors: tuple[Door, ...]) -> bool:
    """Whether a unit outside may be presented: it came out of the hold, or it stands at another door."""
    last = work.ledger.touched.get((Sort.UNIT, unit))
    if last is None or not isinstance(work.scene.procedure.steps[last - 1], Present):
        return True
    at = work.state.at_door.get(unit)
    return at is not None and bool(doors) and all(door.name != at for door in doors)


def _doors(work: Work, step: Present, doing: str) -> tuple[Door, ...]:
    """The door that a unit is brought to; all that may be meant where the step does not say."""
    doors = work.scene.hold.doors
    if step.door is None:
        if len(doors) > 1:
            work.find(
                "door-not-named",
                f"{doing}, but does not say at which door",
                suggestion=f"write present: {{unit: {step.unit}, door: {either(tuple(doors))}}}",
                against=work.scene.hold.place,
                because=f"the hold has {len(doors)} doors",
                unit=step.unit,
            )
        return tuple(doors.values())
    if step.door in doors:
        return (doors[step.door],)
    work.find(
        "unknown-in-hold",
        f"{doing} at “{step.door}”, a door which {work.scene.hold.name} does not have",
        suggestion=did_you_mean(step.door, tuple(doors), "door"),
        item=step.door,
        unit=step.unit,
    )
    near = nearest(step.door, tuple(doors))
    return (doors[near[0]],) if len(near) == 1 else tuple(doors.values())
