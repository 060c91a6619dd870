"""Getting at things: through an open door, behind an open panel; and who is inside afterwards."""

from __future__ import annotations

from procgen.diagnostics import Place
from procgen.model.controls import Control, Panel
from procgen.model.hold import Restraint
from procgen.model.words import OUTSIDE, Stand
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, either
from procgen.simulate.walking import check_reach
from procgen.simulate.work import Work


def need_door(work: Work, doors: tuple[str, ...], doing: str) -> None:
    """One of `doors` must be open; `doing` says in words what the step does there."""
    if not doors or any(door in work.state.open_doors for door in doors):
        return
    if any(work.excused(Sort.DOOR, door, "open") for door in doors):
        return
    names = [called(work.scene.hold.doors[door]) for door in doors]
    work.find(
        "door-not-open",
        f"{doing} while {either(names)} is closed",
        suggestion=f"open {either(names)} before this step",
        against=work.scene.hold.doors[doors[0]].place,
        because="the door",
        item=doors[0],
    )
    for door in doors:
        work.doubt(Sort.DOOR, door)


def enter(work: Work, at: Stand | None, doing: str) -> None:
    """A hand action done inside: a door must be open, and somebody is in the hold from now on."""
    if at is Stand.INSIDE:
        need_door(work, tuple(work.scene.hold.doors), f"{doing} inside the hold")
        work.go_inside()


def reach_restraint(work: Work, item: Restraint, doing: str) -> bool:
    """Reach a restraint by hand: inside, or from outside through the door where it stands.

    False where units stand in between.
    """
    if item.reached_from is Stand.INSIDE:
        if not check_reach(work, item, doing):
            return False  # and so nobody goes in
        enter(work, Stand.INSIDE, doing)
        return True
    at_sill = item.between is not None and OUTSIDE in item.between
    bays = item.between if at_sill and item.between is not None else item.beside
    doors = [door for bay in bays if bay != OUTSIDE for door in work.scene.doors_at(bay)]
    need_door(work, tuple(dict.fromkeys(doors)) or tuple(work.scene.hold.doors), doing)
    return True


def reach_panel(work: Work, panel: Panel, doing: str) -> None:
    """Reach a panel: the one that it is behind must be open."""
    over = work.scene.hold.panels.get(panel.behind) if panel.behind is not None else None
    if over is None or over.name in work.state.open_panels or work.excused(Sort.PANEL, over.name, "open"):
        return
    work.find(
        "control-behind-closed-panel",
        f"{doing}, but {called(over)} over it is closed",
        suggestion=f"open {called(over)} before this step and close it after",
        against=panel.place,
        because=f"{called(panel)} is behind {called(over)}",
        item=panel.name,
    )
    work.doubt(Sort.PANEL, over.name)


def reach_control(work: Work, control: Control, doing: str) -> None:
    """Reach a control: the panel over it must be open."""
    panel = work.scene.hold.panels.get(control.behind) if control.behind is not None else None
    if panel is not None:
        reach_panel(work, panel, doing)
    if panel is None or panel.name in work.state.open_panels or work.excused(Sort.PANEL, panel.name, "open"):
        return
    work.find(
        "control-behind-closed-panel",
        f"{doing}, but {called(panel)} over it is closed",
        suggestion=f"open {called(panel)} before this step",
        against=control.place,
        because=f"{called(control)} is behind {called(panel)}",
        item=control.name,
    )
    work.doubt(Sort.PANEL, panel.name)


def out_of_service(work: Work, rule: str, name: str, doing: str, against: Place) -> bool:
    """Whether a control, or the power, is out of service; its first use is a finding of `rule`.

    `doing` goes on "out of service".
    """
    if name not in work.state.dead:
        return False
    if not work.excused(Sort.SERVICE, name, ""):
        work.find(
            rule,
            f"{doing} out of service",
            suggestion="do without it, or repair it first",
            against=against,
            because=name,
            item=name,
        )
        work.doubt(Sort.SERVICE, name)
    return True
