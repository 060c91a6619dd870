"""The controls held during a move: known, reachable, few enough, and each of use to it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from procgen.model.controls import Control
from procgen.model.hold import Restraint
from procgen.model.step import Drive, Push
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, did_you_mean, either, listed, nearest
from procgen.simulate.reach import enter, out_of_service, reach_control
from procgen.simulate.scene import Hop
from procgen.simulate.things import unknown_position
from procgen.simulate.work import Work

MOST_HELD = 2
"""How many controls may be held at once."""


@dataclass(frozen=True, slots=True)
class Held:
    """What is held: control to position, as far as known; `suspects` are controls that a finding is about.

    What a suspect does or fails to do has been said already. `unclear` where a name cannot be told at all,
    so that every control may have been meant; `astray` where all of them ask for another move, so that the
    places of the step may be what is wrong.
    """

    positions: Mapping[str, str]
    suspects: frozenset[str] = frozenset()
    unclear: bool = False
    astray: bool = False

    def lowers(self, item: Restraint) -> bool:
        """Whether something held lowers this restraint (where it needs no power, or has it)."""
        return any(self.positions.get(control) == at for control, at in item.lowered_by.items())

    def keeps_down(self, item: Restraint, powered: bool, stuck: Collection[str]) -> bool:
        """Whether something held lowers this restraint in fact: one that is stuck stays as it is, and one
        that needs power stays up without it."""
        return self.lowers(item) and item.name not in stuck and (powered or not item.powered)

    def suspected(self, item: Restraint) -> bool:
        """Whether a control that a finding is about could move this restraint."""
        return bool(item.lowered_by) and (self.unclear or not self.suspects.isdisjoint(item.lowered_by))


def read_held(work: Work, step: Drive | Push, hops: tuple[Hop, ...], sound: bool) -> Held:
    """Find what is wrong with the controls held, whatever drives the unit."""
    positions: dict[str, str] = {}
    suspects = {
        name for name, item in work.scene.hold.controls.items() if item.is_held and _in_doubt(work, name)
    }
    unclear = astray = False
    for name, position in step.hold.items():
        control = _control(work, name, position)
        if control is None:
            unclear = True
            continue
        at, trusted = _hold(work, control, position)
        if at is not None:
            positions[control.name] = at
        if not trusted:
            suspects.add(control.name)
            unclear = unclear or not control.is_held
    if _too_many(work, step, positions, hops):
        unclear = True
    elif sound and not unclear:
        wrong = _of_no_use(work, step, positions, hops, suspects)
        suspects |= wrong
        unclear = bool(wrong)  # another control may have been meant
        astray = unclear and len(wrong) == len(positions)
    return Held(positions, frozenset(suspects), unclear, astray)


def _in_doubt(work: Work, control: str) -> bool:
    return work.ledger.in_doubt(Sort.CONTROL, control)


def _control(work: Work, name: str, position: str) -> Control | None:
    controls = work.scene.hold.controls
    if name in controls:
        return controls[name]
    held = [other for other, control in controls.items() if control.is_held]
    work.find(
        "unknown-in-hold",
        f"holds “{name}”, a control which {work.scene.hold.name} does not have",
        suggestion=did_you_mean(name, held, "control that is held"),
        item=name,
    )
    near = [other for other in nearest(name, held) if position in controls[other].positions]
    return controls[near[0]] if len(near) == 1 else None


def _hold(work: Work, control: Control, position: str) -> tuple[str | None, bool]:
    """The position a control is held in, and whether nothing is wrong with holding it so."""
    doing = f"holds {called(control)} to {position}"
    before = len(work.findings)
    at: str | None = position
    if position not in control.positions:
        unknown_position(work, control, position, doing)
        near = nearest(position, control.positions)
        at = near[0] if len(near) == 1 else None
    if not control.is_held and not work.excused(Sort.CONTROL, control.name, position):
        work.find(
            "staying-control-held",
            f"{doing}, but it stays where it is put",
            suggestion=f"set it in a step of its own: set: {{{control.name}: {position}}}",
            against=control.place,
            because=f"{called(control)} stays where it is set",
            item=control.name,
        )
        work.doubt(Sort.CONTROL, control.name)
    trusted = len(work.findings) == before and control.is_held
    reach_control(work, control, doing)
    if trusted:
        enter(work, control.at, doing)
    dead = out_of_service(work, "wrong-control-held", control.name, f"{doing}, which is", control.place)
    return at, trusted and not dead


def _of_no_use(
    work: Work, step: Drive | Push, positions: Mapping[str, str], hops: tuple[Hop, ...], known: set[str]
) -> set[str]:
    """The controls that work against the move or do nothing for it; together they are one finding."""
    wrong: dict[str, tuple[str, str]] = {}
    for name, position in positions.items():
        complaint, mend = ("", "") if name in known else _complaint(work, step, name, position, hops)
        if complaint:
            wrong[name] = (complaint, mend)
    if wrong:
        controls = [work.scene.hold.controls[name] for name in wrong]
        held = [f"{called(control)} to {positions[control.name]}" for control in controls]
        first, (complaint, mend) = next(iter(wrong.items()))
        work.find(
            "wrong-control-held",
            f"holds {held[0]}, {complaint}" + (f"; and {listed(held[1:])}" if held[1:] else ""),
            suggestion=mend,
            against=controls[0].place,
            because=called(controls[0]),
            item=first,
            unit=step.unit,
        )
    return set(wrong)


def _complaint(
    work: Work, step: Drive | Push, name: str, position: str, hops: tuple[Hop, ...]
) -> tuple[str, str]:
    """What is wrong with holding a control in a position, and the way out; empty where it is of use."""
    hold, go = work.scene.hold, hops[0].go
    places = {place for hop in hops for place in hop.pair}
    runs = [
        (drive, travel)
        for drive in hold.drives.values()
        for travel, at in drive.go.items()
        if drive.run_by == name and at == position
    ]
    against = [(drive, way) for drive, way in runs if way is not go and not places.isdisjoint(drive.under)]
    along = [drive for drive, way in runs if way is go and not places.isdisjoint(drive.under)]
    if runs and isinstance(step, Push):
        return f"which runs {called(runs[0][0])} while {step.unit} is pushed by hand", f"let go of {name}"
    if against:
        drive, way = against[0]
        return f"which runs {called(drive)} {way}, but {step.unit} goes {go}", _instead(work, hops)
    if along or _opens(work, name, position, hops):
        return "", ""
    if runs:
        return f"which runs {called(runs[0][0])}, where {step.unit} does not go", _instead(work, hops)
    return f"which does nothing for {step.unit} going {go}", f"leave {name} out, or correct its position"


def _opens(work: Work, control: str, position: str, hops: tuple[Hop, ...]) -> bool:
    """Whether a control lowers a restraint that stands in the way, or where the unit would stand over it."""
    restraints = work.scene.hold.restraints
    lowered = {name for name, item in restraints.items() if item.lowered_by.get(control) == position}
    met = {name for hop in hops for name in work.scene.in_way(hop) if hop.go in restraints[name].stops}
    beneath = {name for hop in hops for name in work.scene.beneath.get(hop.end, ())}
    return not lowered.isdisjoint(met | beneath)


def _instead(work: Work, hops: tuple[Hop, ...]) -> str:
    """What to hold for a drive in this direction."""
    ways = controls_for(work, hops[0])
    return f"hold {either(ways)}" if ways else "push the unit"


def controls_for(work: Work, hop: Hop) -> list[str]:
    """The controls and positions that run a drive under a hop in its direction, in words."""
    hold = work.scene.hold
    ways: dict[str, None] = {}
    for drive in hold.drives.values():
        if hop.go in drive.go and not hop.pair.isdisjoint(drive.under) and drive.run_by in hold.controls:
            ways[f"{called(hold.controls[drive.run_by])} to {drive.go[hop.go]}"] = None
    return list(ways)


def _too_many(work: Work, step: Drive | Push, positions: Mapping[str, str], hops: tuple[Hop, ...]) -> bool:
    """Whether more are held than two hands can; which of them the move can do without is said with it."""
    if len(step.hold) <= MOST_HELD:
        return False
    spare = [
        called(work.scene.hold.controls[name])
        for name, position in positions.items()
        if hops and _complaint(work, step, name, position, hops)[0]
    ]
    work.find(
        "too-many-controls-held",
        f"holds {listed(tuple(step.hold))} at once, but nobody holds more than {MOST_HELD}",
        suggestion=f"leave out {listed(spare)}, of no use to this move"
        if spare
        else "split the move, so that each step needs two controls at most",
        unit=step.unit,
    )
    return True
