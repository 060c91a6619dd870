"""Why a unit cannot be moved, in words a writer understands, with the place in the data behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from procgen.diagnostics import Place
from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE, RestraintState, Stand
from procgen.plan.load import Load, holders
from procgen.plan.machine import Hop, Machine, control_title, item_title
from procgen.plan.route import Router, misfit_on_hop, search
from procgen.plan.run import (
    LOWERED,
    MOST_HELD,
    RAISED,
    Setting,
    drive_pairs,
    lowering_pairs,
    passings,
)
from procgen.results.plan import Reason


def why_no_way(router: Router, load: Load, standing: Mapping[str, str], setting: Setting) -> Reason:
    """The first thing in the way of a unit on its shortest way over the lanes, without saying for whom.

    `standing` says where the other units are, `setting` how the restraints stand.
    """
    machine = router.machine
    way = search(machine, load.start, load.goal, lambda hop: hop.end != OUTSIDE or hop.end == load.goal)
    if way is None:
        place = machine.hold.bays[load.unit.bay].place
        return Reason(f"no lane leads from {load.start} to {load.goal}", place)
    for hop, _ in way.hops:
        reason = why_no_hop(router, load.unit_type, hop, standing, setting)
        if reason is not None:
            return reason
    return Reason(f"every way from {load.start} to {load.goal} is closed", machine.hold.place)


def why_no_run(router: Router, load: Load, hop: Hop, standing: Mapping[str, str], setting: Setting) -> Reason:
    """Why a unit on its way cannot make its next hop, without saying for whom."""
    reason = why_no_hop(router, load.unit_type, hop, standing, setting)
    return reason if reason is not None else _generic(router.machine, hop)


def headed(loads: Sequence[Load], cause: Reason) -> Reason:
    """A cause with the positions or units that it stands in the way of."""
    if loads[0].goal == OUTSIDE:
        head = f"{', '.join(load.name for load in loads)} cannot be brought out"
    else:
        head = f"{', '.join(load.goal for load in loads)} cannot be reached"
    return Reason(f"{head}: {cause.message}", cause.place)


def why_no_hop(
    router: Router, unit: UnitType, hop: Hop, standing: Mapping[str, str], setting: Setting
) -> Reason | None:
    """Why a hop cannot be made; None where it can."""
    machine = router.machine
    for name, bay in standing.items():
        if hop.end in machine.excluded.get(bay, ()):
            over = "" if bay == hop.end else f", which shares floor with {hop.end}"
            return Reason(f"{name} stands in {bay}{over}", machine.hold.bays[bay].place)
    misfit = misfit_on_hop(machine, hop, unit)
    if misfit:
        return Reason(f"{unit.code} does not fit: {misfit[0]}", _bay_place(machine, hop))
    if router.mode(unit, hop, setting) is not None:
        return None
    return next(_troubles(machine, unit, hop, standing, setting), _generic(machine, hop))


def why_stuck(state: RestraintState) -> str:
    """Words for an item out of service."""
    return f"is stuck {state.value}"


def _troubles(
    machine: Machine, unit: UnitType, hop: Hop, standing: Mapping[str, str], setting: Setting
) -> Iterator[Reason]:
    yield from _in_the_way(machine, hop, setting)
    yield from _no_guide(machine, hop, setting)
    yield from _loose(machine, hop, standing, setting)
    yield from _no_mover(machine, unit, hop)
    yield from _interlock(machine, standing, setting)
    yield from _too_many(machine, hop, setting)


def _in_the_way(machine: Machine, hop: Hop, setting: Setting) -> Iterator[Reason]:
    for item, steps in passings(machine, (hop,)).items():
        if not steps[0].stops or setting.restraints[item] is LOWERED or machine.gives_way(item, hop.go):
            continue
        restraint = machine.hold.restraints[item]
        if machine.moves_by_hand(item) and not steps[0].guides:
            continue
        where = f"{restraint.title} between {hop.start} and {hop.end} stops {hop.go.value} travel"
        if item in machine.stuck:
            yield Reason(f"{where} and {why_stuck(machine.stuck[item])}", restraint.place)
        elif steps[0].guides:
            yield Reason(f"{where} and guides the same move, so that it must be up and down", restraint.place)
        elif not lowering_pairs(machine, item):
            yield Reason(f"{where} and {_why_not_lowered(machine, item)}", restraint.place)


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
        why = why_stuck(machine.stuck[item]) if item in machine.stuck else "is down and nothing raises it"
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
        why = why_stuck(machine.stuck[item]) if item in machine.stuck else "is down and nothing raises it"
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
        yield Reason(f"no drive moves a unit {hop.go.value} {way}, and {hand}", _bay_place(machine, hop))
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


def _interlock(machine: Machine, standing: Mapping[str, str], setting: Setting) -> Iterator[Reason]:
    power = machine.hold.power
    for item, state in power.needs.items() if power else ():
        title, place = item_title(machine.hold, item), machine.hold.restraints[item].place
        if setting.restraints[item] is not state and not machine.moves_by_hand(item):
            stuck = why_stuck(machine.stuck[item]) if item in machine.stuck else "nothing moves it"
            yield Reason(f"power needs {title} {state.value}, but it {stuck}".replace("it n", "n"), place)
        elif state is LOWERED and item in setting.pinned:
            units = ", ".join(holders(machine, standing, item)) or "another unit"
            yield Reason(f"power needs {title} lowered, but it holds {units}", place)


def _too_many(machine: Machine, hop: Hop, setting: Setting) -> Iterator[Reason]:
    """More controls than two hands hold, or controls that do not go together."""
    controls = [pair[0] for pair in drive_pairs(machine, hop)[:1]]
    for item, steps in passings(machine, (hop,)).items():
        free = setting.restraints[item] is LOWERED or machine.gives_way(item, hop.go)
        if steps[0].stops and not free and not machine.moves_by_hand(item):
            controls.extend(pair[0] for pair in lowering_pairs(machine, item)[:1])
    names = list(dict.fromkeys(controls))
    titles = ", ".join(control_title(machine.hold, name) for name in names)
    place = machine.hold.controls[names[0]].place if names else machine.hold.place
    way = f"from {hop.start} to {hop.end}"
    if len(names) > MOST_HELD:
        yield Reason(f"{len(names)} controls would have to be held at once {way} ({titles})", place)
    elif names:
        yield Reason(
            f"what has to be held {way} ({titles}) lowers an item that must stay up, or asks for two"
            " things at once",
            place,
        )


def _generic(machine: Machine, hop: Hop) -> Reason:
    return Reason(
        f"no way to move from {hop.start} to {hop.end} keeps every guide up and every other unit held",
        _bay_place(machine, hop),
    )


def _bay_place(machine: Machine, hop: Hop) -> Place:
    bay = hop.end if hop.end in machine.hold.bays else hop.start
    return machine.hold.bays[bay].place
