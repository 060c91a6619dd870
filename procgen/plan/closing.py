"""How everything must stand at the end, and what is left to do for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from procgen.model.words import RestraintState
from procgen.plan.load import pinned
from procgen.plan.machine import Machine
from procgen.plan.run import RAISED
from procgen.plan.troubles import why_stuck
from procgen.results.plan import Reason
from procgen.results.state import State


@dataclass(frozen=True, slots=True)
class Target:
    """The state in which a restraint must be left, and the words for why."""

    state: RestraintState
    why: str


def targets(machine: Machine, bays: Iterable[str]) -> tuple[Mapping[str, Target], tuple[Reason, ...]]:
    """The state of every restraint at the end with units standing in `bays`, and contradictions.

    What holds a loaded bay is raised; what a door needs before it closes is so; the rest is left in its
    closing state, where it has one, is not out of service and no unit stands on it.
    """
    wanted: dict[str, Target] = {}
    reasons: list[Reason] = []
    occupied = tuple(bays)
    held = pinned(machine, occupied)
    under = {item for bay in occupied for item in machine.under.get(bay, ())}
    for name, item in machine.hold.restraints.items():
        needs = [door for door in machine.hold.doors.values() if name in door.close_needs]
        if name in held:
            bay = next(bay for bay in occupied if name in machine.held_by(bay))
            wanted[name] = Target(RAISED, f"position {bay} cannot be restrained")
        elif needs:
            door = needs[0]
            wanted[name] = Target(door.close_needs[name], f"the {door.title} cannot be closed")
        elif item.closing_state is not None and name not in machine.stuck and name not in under:
            wanted[name] = Target(item.closing_state, "the hold cannot be left as it must be")
        if name in under and name in wanted and wanted[name].state is RAISED:
            bay = next(bay for bay in occupied if name in machine.under[bay])
            reasons.append(
                Reason(f"{wanted[name].why}: the unit in {bay} stands on {item.title}", item.place)
            )
        for door in needs:
            if door.close_needs[name] is not wanted[name].state:
                message = (
                    f"{item.title} must be {wanted[name].state.value} and {door.close_needs[name].value}"
                )
                reasons.append(Reason(f"{message} as the {door.title} closes", item.place))
    return wanted, tuple(reasons)


def hopeless(
    machine: Machine, wanted: Mapping[str, Target], standing: Mapping[str, RestraintState]
) -> tuple[Reason, ...]:
    """Why the end cannot be reached: items that stand otherwise than they must and that nobody moves."""
    return tuple(
        _why_not(machine, name, target)
        for name, target in wanted.items()
        if standing[name] is not target.state and not machine.moves_by_hand(name)
    )


def out_of_service(machine: Machine, wanted: Mapping[str, Target], start: State) -> tuple[Reason, ...]:
    """What stands against any plan from the first: items stuck wrongly, dead switches that are left on."""
    stuck = [
        _why_not(machine, name, wanted[name])
        for name, state in machine.stuck.items()
        if name in wanted and wanted[name].state is not state
    ]
    for name, control in machine.hold.controls.items():
        off = position_at_end(machine, name)
        if name in machine.dead and not control.is_held and start.controls.get(name, off) != off:
            message = f"the {control.title} is dead and does not stand at {off}"
            stuck.append(Reason(message, control.place))
    return tuple(stuck)


def position_at_end(machine: Machine, control: str) -> str:
    """Where a control that stays must be left: power off, any other at rest."""
    power = machine.hold.power
    return power.off if power is not None and power.switch == control else machine.hold.controls[control].rest


def left_on(machine: Machine, start: State) -> list[str]:
    """The controls, besides the power switch, that somebody has set and left: this plan sets none."""
    power = machine.hold.power
    return [
        name
        for name, control in machine.hold.controls.items()
        if not control.is_held
        and (power is None or name != power.switch)
        and start.controls.get(name, control.rest) != control.rest
    ]


def left_to_do(
    machine: Machine, wanted: Mapping[str, Target], standing: Mapping[str, RestraintState]
) -> Iterator[tuple[str, RestraintState]]:
    """The hand actions that are left at the end.

    Inside ones first, then those from outside, what power depends on last of each.
    """
    rest = [name for name, target in wanted.items() if standing[name] is not target.state]
    for name in sorted(rest, key=lambda name: (not machine.is_inside(name), machine.is_interlock(name))):
        yield name, wanted[name].state


def _why_not(machine: Machine, name: str, target: Target) -> Reason:
    item = machine.hold.restraints[name]
    why = (
        why_stuck(machine, name)
        if name in machine.stuck
        else f"is not {target.state.value} and nothing moves it"
    )
    return Reason(f"{target.why}: {item.title} {why}", item.place)
