"""What must be so before a door may close."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.hold import Door
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, stands, verb_for
from procgen.simulate.work import Work


def may_close(work: Work, door: Door, doing: str) -> bool:
    """Whether all is ready for a door to close; what is not is found: items, panels, people.

    Units stand in bays or outside, never between, so that none can be on the sill line.
    """
    before = len(work.findings)
    _items(work, door, doing)
    _panels(work, door, doing)
    _people(work, door, doing)
    return len(work.findings) == before


def _items(work: Work, door: Door, doing: str) -> None:
    for name, needed in door.close_needs.items():
        item = work.scene.hold.restraints.get(name)
        if item is None or work.restraint(name) is needed:
            continue
        if work.excused(Sort.RESTRAINT, name, needed.value):
            continue
        work.find(
            "door-closed-too-early",
            f"{doing} while {called(item)} is {stands(item, work.restraint(name))}",
            suggestion=f"{verb_for(item, needed)} {called(item)} before this step",
            against=door.place,
            because=f"{called(door)} closes only with {called(item)} {stands(item, needed)}",
            item=name,
        )
        work.doubt(Sort.RESTRAINT, name)


def _panels(work: Work, door: Door, doing: str) -> None:
    for name, panel in work.scene.hold.panels.items():
        if name not in work.state.open_panels or work.excused(Sort.PANEL, name, "closed"):
            continue
        work.find(
            "door-closed-too-early",
            f"{doing} while {called(panel)} is open",
            suggestion=f"close {called(panel)} before this step",
            against=panel.place,
            because="a panel must be closed before a door is",
            item=name,
        )
        work.doubt(Sort.PANEL, name)


def _people(work: Work, door: Door, doing: str) -> None:
    if not work.state.inside:
        return
    since = work.ledger.touched.get((Sort.PERSON, ""))
    work.find(
        "person-shut-in",
        f"{doing} while somebody may be inside" + (f", since step {since}" if since else ""),
        suggestion="check everyone-out after the last thing done inside and before this step",
        against=door.place,
        because=called(door),
        item=door.name,
    )
    work.state = replace(work.state, inside=False)
