"""What is around a moving unit: people, and the other units."""

from __future__ import annotations

from dataclasses import replace

from procgen.diagnostics import Finding
from procgen.model.words import OUTSIDE, RestraintState
from procgen.simulate.held import Held
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, listed, stands, verb_for
from procgen.simulate.scene import Hop
from procgen.simulate.work import Work


def check_path(work: Work, unit: str | None, *, pushed: bool, doing: str) -> None:
    """Nobody inside, the path confirmed clear, and for this unit.

    Those who push a unit walk behind it: they are inside from then on, where another unit comes to move,
    but not in the way of their own unit when they push it on. Those who pull one stand on the platform.
    Where this step has been found to meet an item that the same person has just moved, the one who moved
    it came too early, and that has been said.
    """
    state = work.state
    since = work.ledger.touched.get((Sort.PERSON, ""))
    complaint = ""
    own_crew = pushed and unit is not None and state.clear_for == unit
    if state.inside and not own_crew:
        if since is None or not any(_moved_at(work, finding, since) for finding in work.findings):
            when = f", since step {since}" if since else ""
            work.find(
                "person-in-the-way",
                f"{doing} while somebody may be in the hold{when}",
                suggestion="check path-clear before this step",
                unit=unit,
            )
    elif not state.path_clear and not own_crew:
        complaint = "the path is not confirmed clear"
    elif state.clear_for not in (None, unit) and not _doubtful(work, unit, state.clear_for):
        complaint = f"the path was last confirmed clear for {state.clear_for}"
    if complaint:
        work.find(
            "path-not-confirmed",
            f"{doing}, but {complaint}",
            suggestion="check path-clear before this step",
            unit=unit,
        )
    work.state = replace(work.state, inside=pushed, path_clear=not pushed, clear_for=unit)
    if pushed:
        work.settle(Sort.PERSON, "")


def _moved_at(work: Work, finding: Finding, step: int) -> bool:
    """Whether a finding is about a restraint that a given step moved."""
    item = dict(finding.subject).get("item", "")
    return work.ledger.touched.get((Sort.RESTRAINT, item)) == step


def _doubtful(work: Work, *units: str | None) -> bool:
    return any(unit is None or work.ledger.in_doubt(Sort.UNIT, unit) for unit in units)


def check_bay_free(work: Work, unit: str | None, hop: Hop, doing: str) -> frozenset[str] | None:
    """The next bay and every bay that shares floor with it must be empty of other units.

    Returns None if it is. Else the restraints of the units found there: that those are up has been said.
    """
    shared = work.scene.sharing.get(hop.end, frozenset())
    holding: set[str] | None = None
    for other, bay in work.state.units.items():
        if other == unit or bay not in shared or work.ledger.in_doubt(Sort.UNIT, other):
            continue
        where = "" if bay == hop.end else f", which shares floor with {hop.end}"
        work.find(
            "bay-occupied",
            f"{doing} {hop}, but {other} stands in {bay}{where}",
            suggestion=f"move {other} out of the way before this step, or choose another bay",
            against=work.scene.hold.bays[bay].place,
            because=f"bay {bay}",
            bay=hop.end,
            unit=unit,
        )
        work.doubt(Sort.UNIT, other)
        position = work.scene.hold.positions.get(bay)
        holding = (holding or set()).union(position.held_by if position else ())
    return None if holding is None else frozenset(holding)


def check_released(
    work: Work, unit: str | None, hops: tuple[Hop, ...], held: Held, *, powered: bool, doing: str
) -> None:
    """Every other unit stays restrained, save for items that stand on this unit's own way."""
    own_way = {name for hop in hops for name in work.scene.in_way(hop)}
    loose: dict[str, list[str]] = {}
    for other, bay in work.state.units.items():
        if other == unit or bay == OUTSIDE or work.ledger.in_doubt(Sort.UNIT, other):
            continue
        down = _down(work, bay, own_way, held, powered)
        planned = work.scene.planned(other)
        if down and planned is not None and planned.bay != bay:
            _astray(work, other, bay, planned.bay, down, doing)
            continue
        for name in down:
            loose.setdefault(name, []).append(other)
    together: dict[tuple[str, ...], list[str]] = {}
    for name, others in loose.items():
        on_its_way = not any(work.at_goal(other) for other in others)
        together.setdefault(tuple(others) if on_its_way else (name,), []).append(name)
    for names in together.values():
        _loose(work, names, loose[names[0]], doing)


def _loose(work: Work, names: list[str], others: list[str], doing: str) -> None:
    """Units that stand with restraints down.

    Each restraint is a finding; but of units that are still to be moved out all are one, because it may be
    their move that was forgotten.
    """
    items = [work.scene.hold.restraints[name] for name in names]
    titles = listed([called(item) for item in items])
    hold, verb = ("holds", "is") if len(items) == 1 else ("hold", "are")
    state = stands(items[0], RestraintState.LOWERED)
    work.find(
        "released-early",
        f"{doing} while {titles}, which {hold} {listed(others)}, {verb} {state}",
        suggestion=f"{verb_for(items[0], RestraintState.RAISED)} {titles} before this step",
        against=items[0].place,
        because=called(items[0]),
        item=names[0],
        bay=work.state.units[others[0]],
        unit=others[0],
    )
    for name in names:
        work.doubt(Sort.RESTRAINT, name)
    for other in others:
        if not work.at_goal(other):
            work.doubt(Sort.UNIT, other)


def _down(work: Work, bay: str, own_way: set[str], held: Held, powered: bool) -> list[str]:
    """The restraints of a bay that are not up, and that no earlier finding answers for."""
    position = work.scene.hold.positions.get(bay)
    found: list[str] = []
    for name in position.held_by if position else ():
        item = work.scene.hold.restraints.get(name)
        if item is None or name in own_way:
            continue
        down = work.restraint(name) is RestraintState.LOWERED
        held_down = held.keeps_down(item, powered, work.state.stuck) and not held.suspected(item)
        if held_down or (down and not work.excused(Sort.RESTRAINT, name, RestraintState.RAISED.value)):
            found.append(name)
    return found


def _astray(work: Work, other: str, bay: str, planned: str, down: list[str], doing: str) -> None:
    """A unit that was left on its way, unrestrained: one finding, however many restraints are down."""
    items = [called(work.scene.hold.restraints[name]) for name in down]
    verb = "is" if len(items) == 1 else "are"
    work.find(
        "released-early",
        f"{doing} while {other} stands in {bay} on its way, where {listed(items)} {verb} down",
        suggestion=f"move {other} on before this step (its bay is {planned})",
        against=work.scene.hold.bays[bay].place if bay in work.scene.hold.bays else work.scene.hold.place,
        because=f"bay {bay}",
        item=down[0],
        bay=bay,
        unit=other,
    )
    work.doubt(Sort.UNIT, other)
