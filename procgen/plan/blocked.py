"""Why a unit cannot be moved, in words a writer understands, with the place in the data behind it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from procgen.model.unit import UnitType
from procgen.model.words import OUTSIDE
from procgen.plan.load import Load
from procgen.plan.machine import Hop, Machine
from procgen.plan.route import Router, Way, misfit_on_hop, search
from procgen.plan.run import Mode, Setting
from procgen.plan.troubles import bay_place, troubles, untold
from procgen.results.plan import Reason


def why_no_way(router: Router, load: Load, standing: Mapping[str, str], setting: Setting) -> Reason:
    """The first thing in the way of a unit on its shortest way over the lanes, without saying for whom.

    `standing` says where the other units are, `setting` how the restraints stand.
    """
    machine = router.machine
    way = _shortest(machine, load)
    if way is None:
        place = machine.hold.bays[load.unit.bay].place
        return Reason(f"no lane leads from {load.start} to {load.goal}", place)
    for hop, _ in way.hops:
        reason = why_no_hop(router, load.unit_type, hop, standing, setting)
        if reason is not None:
            return reason
    return Reason(f"every way from {load.start} to {load.goal} is closed", machine.hold.place)


def in_the_way(machine: Machine, load: Load, standing: Mapping[str, str]) -> str | None:
    """The first unit that stands on a unit's shortest way over the lanes."""
    way = _shortest(machine, load)
    for hop, _ in way.hops if way else ():
        name = _occupant(machine, hop, standing)
        if name is not None:
            return name
    return None


def why_no_run(router: Router, load: Load, hop: Hop, standing: Mapping[str, str], setting: Setting) -> Reason:
    """Why a unit on its way cannot make its next hop, without saying for whom."""
    reason = why_no_hop(router, load.unit_type, hop, standing, setting)
    return reason if reason is not None else untold(router.machine, hop)


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
    name = _occupant(machine, hop, standing)
    if name is not None:
        bay = standing[name]
        over = "" if bay == hop.end else f", which shares floor with {hop.end}"
        return Reason(f"{name} stands in {bay}{over}", machine.hold.bays[bay].place)
    misfit = misfit_on_hop(machine, hop, unit)
    if misfit:
        return Reason(f"{unit.code} does not fit: {misfit[0]}", bay_place(machine, hop))
    if router.mode(unit, hop, setting) is not None:
        return None
    return next(troubles(machine, unit, hop, standing, setting), untold(machine, hop))


def _shortest(machine: Machine, load: Load) -> Way | None:
    """The shortest way over the lanes, whatever stands in it."""

    def mode_of(hop: Hop) -> Mode | None:
        return Mode.DRIVE if hop.end != OUTSIDE or load.goal == OUTSIDE else None

    return search(machine, load.start, load.goal, mode_of)


def _occupant(machine: Machine, hop: Hop, standing: Mapping[str, str]) -> str | None:
    return next((name for name, bay in standing.items() if hop.end in machine.excluded.get(bay, ())), None)
