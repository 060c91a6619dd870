"""What can stand in the way of one hop: restraints, guides, controls, power, other units' restraints."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from procgen.diagnostics import Place
from procgen.model.unit import UnitType
from procgen.model.words import RestraintKind, Stand
from procgen.plan.load import holders
from procgen.plan.machine import Hop, Machine, Pair, control_title, item_title
from procgen.plan.run import (
    LOWERED,
    MOST_HELD,
    RAISED,
    Mode,
    Setting,
    drive_pairs,
    lowering_pairs,
    passings,
)
from procgen.results.plan import Reason


def why_stuck(machine: Machine, item: str) -> str:
    """Words for a restraint out of service: a net is fitted and removed, everything else goes up and down."""
    state = machine.stuck[item]
    if machine.hold.restraints[item].kind is not RestraintKind.NET:
        return f"is stuck {state.value}"
    return "cannot be removed" if state is RAISED else "cannot be fitted"


def troubles(
    machine: Machine, unit: UnitType, hop: Hop, standing: Mapping[str, str], setting: Setting
) -> Iterator[Reason]:
    """What keeps a unit that fits from making a hop to a free bay, the plainest first."""
    if unit.loose:
        yield from _not_carried(machine, hop, setting)
        yield from _loose(machine, hop, standing, setting)
        return
    yield from _in_the_way(machine, hop, setting)
    yield from _no_guide(machine, hop, setting)
    yield from _loose(machine, hop, standing, setting)
    yield from _no_mover(machine, unit, hop)
    yield from _interlock(machine, hop, standing, setting)
    yield from _too_many(machine, hop, setting)
    yield from _at_odds(machine, hop, standing, setting)


def _in_the_way(machine: Machine, hop: Hop, setting: Setting) -> Iterator[Reason]:
    for item, steps in passings(machine, (hop,)).items():
        if not steps[0].stops or setting.restraints[item] is LOWERED or machine.gives_way(item, hop.go):
            continue
        restraint = machine.hold.restraints[item]
        if machine.moves_by_hand(item) and not steps[0].guides:
            continue
        where = f"{restraint.title} between {hop.start} and {hop.end} stops {hop.go.value} travel"
        if item in machine.stuck:
            yield Reason(f"{where} and {why_stuck(machine, item)}", restraint.place)
        elif steps[0].guides:
            yield Reason(f"{where} and guides the same move, so that it must be up and down", restraint.place)
        elif not lowering_pairs(machine, item):
            yield Reason(f"{where} and {_why_not_lowered(machine, item)}", restraint.place)


def _not_carried(machine: Machine, hop: Hop, setting: Setting) -> Iterator[Reason]:
    """What stands in the way of pieces carried by hand: what no hand takes away."""
    for item in passings(machine, (hop,), Mode.STOW):
        if setting.restraints[item] is LOWERED or machine.moves_by_hand(item):
            continue
        restraint = machine.hold.restraints[item]
        why = why_stuck(machine, item) if item in machine.stuck else "is not moved by hand"
        where = f"{restraint.title} between {hop.start} and {hop.end} stops {hop.go.value} travel"
        yield Reason(f"{where} and {why}", restraint.place)


def _why_not_lowered(machine: Machine, item: str) -> str:
    restraint = machine.hold.restraints[item]
    if not restraint.lowered_by:
        return "nothing lowers it"
    if restraint.powered and not machine.has_power():
        return f"it is lowered under power only: {_why_no_power(machine)}"
    return " and ".join(
        why_not_held(machine, control) or f"the {control_title(machine.hold, control)} cannot be held"
        for control in restraint.lowered_by
    )


def why_not_held(machine: Machine, control: str) -> str:
    """Why a control cannot be held while a unit moves; empty where it can."""
    title = control_title(machine.hold, control)
    found = machine.hold.controls.get(control)
    if control in machine.dead:
        return f"the {title} is dead"
    if found is not None and not found.is_held:
        return f"the {title} is set and not held"
    if found is not None and found.at is Stand.INSIDE:
        return f"the {title} is worked inside, where nobody may be as a unit moves"
    return "" if found is not None else f"there is no control {control}"


def _why_no_power(machine: Machine) -> str:
    power = machine.hold.power
    if power is None:
        return "the hold has no power"
    if "power" in machine.dead:
        return "the power is dead"
    why = "is dead" if power.switch in machine.dead else "does not stay on"
    return f"the {control_title(machine.hold, power.switch)} {why}"


def _no_guide(machine: Machine, hop: Hop, setting: Setting) -> Iterator[Reason]:
    for item in machine.guiding.get((hop.start, hop.end), ()):
        if setting.restraints[item] is RAISED or machine.moves_by_hand(item):
            continue
        restraint = machine.hold.restraints[item]
        why = why_stuck(machine, item) if item in machine.stuck else "is down and nothing raises it"
        yield Reason(
            f"{restraint.title} must be up to guide a unit from {hop.start} to {hop.end}, but {why}",
            restraint.place,
        )


def _loose(machine: Machine, hop: Hop, standing: Mapping[str, str], setting: Setting) -> Iterator[Reason]:
    own = machine.standing.get(frozenset((hop.start, hop.end)), ())
    for item in sorted(setting.pinned.difference(own), key=machine.rank.__getitem__):
        if setting.restraints[item] is RAISED or machine.moves_by_hand(item):
            continue
        units = ", ".join(holders(machine, standing, item)) or "another unit"
        why = why_stuck(machine, item) if item in machine.stuck else "is down and nothing raises it"
        restraint = machine.hold.restraints[item]
        yield Reason(f"{units} would stand unrestrained meanwhile: {restraint.title} {why}", restraint.place)


def _no_mover(machine: Machine, unit: UnitType, hop: Hop) -> Iterator[Reason]:
    if drive_pairs(machine, hop) and machine.has_power():
        return
    hold = machine.hold
    leave = hold.hand_moves
    if leave is None:
        hand = "the hold forbids moving by hand"
    elif leave.max_mass is not None and unit.max_gross.quantity > leave.max_mass.quantity:
        hand = f"{unit.code} at {unit.max_gross.quantity} is heavier than may be pushed"
    else:
        return
    way = f"from {hop.start} to {hop.end}"
    there = [
        (name, drive)
        for name, drive in hold.drives.items()
        if hop.go in drive.go and (hop.start in drive.under or hop.end in drive.under)
    ]
    if not there:
        yield Reason(f"no drive moves a unit {hop.go.value} {way}, and {hand}", bay_place(machine, hop))
        return
    name, drive = there[0]
    if name in machine.dead:
        yield Reason(f"the {drive.title} {way} is dead and {hand}", drive.place)
    elif not machine.has_power():
        place = hold.power.place if hold.power else drive.place
        yield Reason(f"{_why_no_power(machine)} and {hand}", place)
    else:
        why = why_not_held(machine, drive.run_by)
        control = hold.controls.get(drive.run_by)
        yield Reason(f"{why} and {hand}", control.place if control else drive.place)


def _interlock(machine: Machine, hop: Hop, standing: Mapping[str, str], setting: Setting) -> Iterator[Reason]:
    power = machine.hold.power
    asked = passings(machine, (hop,))
    for item, state in power.needs.items() if power else ():
        restraint = machine.hold.restraints[item]
        needed = f"power needs {restraint.title} {state.value}, but"
        steps = asked.get(item, [])
        if setting.restraints[item] is not state and not machine.moves_by_hand(item):
            why = f"it {why_stuck(machine, item)}" if item in machine.stuck else "nothing moves it"
            yield Reason(f"{needed} {why}", restraint.place)
        elif state is LOWERED and item in setting.pinned:
            units = ", ".join(holders(machine, standing, item)) or "another unit"
            yield Reason(f"{needed} it holds {units}", restraint.place)
        elif state is RAISED and any(step.stops for step in steps):
            way = f"between {hop.start} and {hop.end}"
            yield Reason(f"{needed} it stops {hop.go.value} travel {way}", restraint.place)
        elif state is LOWERED and any(step.guides for step in steps):
            way = f"from {hop.start} to {hop.end}"
            yield Reason(f"{needed} it must be up to guide a unit {way}", restraint.place)


def _too_many(machine: Machine, hop: Hop, setting: Setting) -> Iterator[Reason]:
    """More controls than two hands hold."""
    names = list(dict.fromkeys(control for control, _ in _needed(machine, hop, setting)))
    if len(names) > MOST_HELD:
        titles = ", ".join(control_title(machine.hold, name) for name in names)
        way = f"from {hop.start} to {hop.end}"
        place = machine.hold.controls[names[-1]].place
        yield Reason(f"{len(names)} controls would have to be held at once {way} ({titles})", place)


def _at_odds(machine: Machine, hop: Hop, standing: Mapping[str, str], setting: Setting) -> Iterator[Reason]:
    """A control that has to be held, and does something besides that must not be."""
    needed = _needed(machine, hop, setting)
    asked = passings(machine, (hop,))
    way = f"from {hop.start} to {hop.end}"
    for control, position in needed:
        held = f"the {control_title(machine.hold, control)} has to be held at {position} {way}, but"
        place = machine.hold.controls[control].place
        other = [pair[1] for pair in needed if pair[0] == control and pair[1] != position]
        if other:
            yield Reason(f"{held} at {other[0]} too", place)
        against = machine.asks_for((control, position)) - {hop.go}
        if against:
            yield Reason(f"{held} that also runs a drive {min(against).value}", place)
        own = machine.standing.get(frozenset((hop.start, hop.end)), ())
        for item in machine.lowered_by((control, position)):
            lowers = f"{held} that also lowers {item_title(machine.hold, item)},"
            if any(step.guides for step in asked.get(item, ())):
                yield Reason(f"{lowers} which must be up to guide the unit", place)
            elif item in setting.pinned and item not in own:
                units = ", ".join(holders(machine, standing, item)) or "another unit"
                yield Reason(f"{lowers} which holds {units}", place)
            elif machine.is_interlock(item):
                yield Reason(f"{lowers} which power depends on", place)


def _needed(machine: Machine, hop: Hop, setting: Setting) -> list[Pair]:
    """The controls that have to be held for a hop, with their positions: the first choice of each."""
    pairs = list(drive_pairs(machine, hop)[:1])
    for item, steps in passings(machine, (hop,)).items():
        free = setting.restraints[item] is LOWERED or machine.gives_way(item, hop.go)
        if steps[0].stops and not free and not machine.moves_by_hand(item):
            pairs.extend(lowering_pairs(machine, item)[:1])
    return list(dict.fromkeys(pairs))


def untold(machine: Machine, hop: Hop) -> Reason:
    """Words where no single item is to blame."""
    return Reason(
        f"no way to move from {hop.start} to {hop.end} keeps every guide up and every other unit held",
        bay_place(machine, hop),
    )


def bay_place(machine: Machine, hop: Hop) -> Place:
    """The bay that a hop leads to, or from where it leads outside."""
    bay = hop.end if hop.end in machine.hold.bays else hop.start
    return machine.hold.bays[bay].place
