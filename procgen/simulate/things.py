"""Steps on doors, panels and controls: open, close, set; and what a name belongs to."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.controls import Control, Panel
from procgen.model.hold import Door
from procgen.model.step import Close, Open, SetControl
from procgen.simulate.closing import may_close
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, did_you_mean, nearest
from procgen.simulate.power import POWER, unmet_interlocks
from procgen.simulate.reach import enter, out_of_service, reach_control, reach_panel
from procgen.simulate.work import Work


def wrong_verb(work: Work, name: str, verb: str) -> bool:
    """Whether a name that `verb` cannot act on belongs to a thing of another kind: then a finding."""
    hold = work.scene.hold
    kinds = (
        (hold.restraints, Sort.RESTRAINT, "moved by hand: raised and lowered, or fitted and removed"),
        (hold.controls, Sort.CONTROL, "set, or held while a unit moves"),
        (hold.panels, Sort.PANEL, "opened and closed"),
        (hold.doors, Sort.DOOR, "opened and closed"),
        (hold.drives, None, "run by a control that is held"),
        (hold.bays, None, "a place that units move through"),
    )
    for things, sort, done in kinds:
        if name in things:
            work.find(
                "wrong-verb-for-item",
                f"{verb} {name}, but it is {done}",
                suggestion="use the verb for it, or name the item that was meant",
                against=things[name].place,
                because=name,
                item=name,
            )
            if sort is not None:
                work.doubt(sort, name)
            return True
    return False


def open_or_close(work: Work, step: Open | Close) -> None:
    """Open or close a door or a panel."""
    thing = _door_or_panel(work, step)
    if thing is None:
        return
    opening = isinstance(step, Open)
    sort, doing = _sort(thing), f"{'opens' if opening else 'closes'} {called(thing)}"
    is_open = thing.name in (work.state.open_doors if sort is Sort.DOOR else work.state.open_panels)
    ready = True
    if isinstance(thing, Panel):
        enter(work, thing.at, doing)
        reach_panel(work, thing, doing)
    elif is_open and not opening:
        ready = may_close(work, thing, doing)
    wanted, opposite = ("open", "closed") if opening else ("closed", "open")
    if is_open is opening and not work.excused(sort, thing.name, opposite):
        work.find(
            "step-without-effect",
            f"{doing}, which is {'open' if opening else 'closed'} already",
            suggestion="delete this step, or write what was meant",
            against=thing.place,
            because=called(thing),
            item=thing.name,
        )
        work.doubt(sort, thing.name)
        work.owe(Sort.PANEL if sort is Sort.DOOR else Sort.DOOR, wanted)
        return
    _put(work, sort, thing.name, opening)
    if thing.name != step.target or not ready:
        work.doubt(sort, thing.name)


def _door_or_panel(work: Work, step: Open | Close) -> Door | Panel | None:
    hold, name = work.scene.hold, step.target
    verb = "opens" if isinstance(step, Open) else "closes"
    if (known := hold.doors.get(name) or hold.panels.get(name)) is not None:
        return known
    wanted = "open" if isinstance(step, Open) else "closed"
    if not wrong_verb(work, name, verb):
        all_names = (*hold.doors, *hold.panels)
        work.find(
            "unknown-in-hold",
            f"{verb} “{name}”, a door or panel which {hold.name} does not have",
            suggestion=did_you_mean(name, all_names, "door or panel"),
            item=name,
        )
        near = nearest(name, all_names)
        if len(near) == 1:
            return hold.doors.get(near[0]) or hold.panels[near[0]]
    work.owe(Sort.DOOR, wanted)
    work.owe(Sort.PANEL, wanted)
    return None


def _sort(thing: Door | Panel) -> Sort:
    return Sort.DOOR if isinstance(thing, Door) else Sort.PANEL


def _put(work: Work, sort: Sort, name: str, opening: bool) -> None:
    if sort is Sort.DOOR:
        doors = work.state.open_doors | {name} if opening else work.state.open_doors - {name}
        seen = {door: by for door, by in work.state.latch_seen.items() if door != name}
        if not opening:
            seen[name] = frozenset()
        work.state = replace(work.state, open_doors=doors, latch_seen=seen)
    else:
        panels = work.state.open_panels | {name} if opening else work.state.open_panels - {name}
        work.state = replace(work.state, open_panels=panels)
    work.settle(sort, name)


def set_control(work: Work, step: SetControl) -> None:
    """Set a control that stays where it is put."""
    control = _control(work, step)
    if control is None:
        return
    doing = f"sets {called(control)} to {step.position}"
    if control.is_held:
        work.find(
            "held-control-set",
            f"{doing}, but it goes back to {control.rest} as soon as it is let go",
            suggestion=f"hold it in the step that moves the unit: hold: {{{control.name}: {step.position}}}",
            against=control.place,
            because=f"{called(control)} must be held",
            item=control.name,
        )
        work.doubt(Sort.CONTROL, control.name)
        work.owe(Sort.CONTROL, "")
        return
    position = _position(work, control, step.position, doing)
    reach_control(work, control, doing)
    enter(work, control.at, doing)
    if out_of_service(work, "step-without-effect", control.name, f"{doing}, which is", control.place):
        work.doubt(Sort.CONTROL, control.name)
    if position is None:
        work.doubt(Sort.CONTROL, control.name)
        return
    if work.control(control.name) != position:
        _switch_on(work, control, position, doing)
    _turn(work, control, position, doing)
    if position != step.position or control.name != step.control:
        work.doubt(Sort.CONTROL, control.name)


def _control(work: Work, step: SetControl) -> Control | None:
    controls, name = work.scene.hold.controls, step.control
    if name in controls:
        return controls[name]
    if wrong_verb(work, name, "sets"):
        work.owe(Sort.CONTROL, "")
    else:
        staying = [other for other, control in controls.items() if not control.is_held]
        work.find(
            "unknown-in-hold",
            f"sets “{name}”, a control which {work.scene.hold.name} does not have",
            suggestion=did_you_mean(name, staying, "control that stays where it is set"),
            item=name,
        )
        near = nearest(name, staying)
        if len(near) == 1:
            return controls[near[0]]
        work.owe(Sort.CONTROL, step.position)
    return None


def _position(work: Work, control: Control, position: str, doing: str) -> str | None:
    """The position that is meant: of an unknown one the only other one, or the nearest."""
    if position in control.positions:
        return position
    unknown_position(work, control, position, doing)
    others = [other for other in control.positions if other != work.control(control.name)]
    near = others if len(others) == 1 else nearest(position, others)
    return near[0] if len(near) == 1 else None


def unknown_position(work: Work, control: Control, position: str, doing: str) -> None:
    """The finding for a position that a control does not have."""
    work.find(
        "no-such-control-position",
        f"{doing}, but it has no position “{position}”",
        suggestion=did_you_mean(position, control.positions, "position"),
        against=control.place,
        because=f"{called(control)} has {len(control.positions)} positions: {', '.join(control.positions)}",
        item=control.name,
    )


def _switch_on(work: Work, control: Control, position: str, doing: str) -> None:
    """Power comes on only with every interlock met, and where it works at all."""
    power = work.scene.hold.power
    if power is None or control.name != power.switch or position != power.on:
        return
    out_of_service(work, "step-without-effect", POWER, f"{doing}, but power is", power.place)
    for gap in unmet_interlocks(work, power):
        if not work.excused(gap.sort, gap.name, gap.wanted):
            work.find(
                "interlock-not-met",
                f"{doing}, but {gap.words}",
                suggestion=gap.mend,
                against=gap.place,
                because="what power needs",
                item=gap.name,
            )
            work.doubt(gap.sort, gap.name)


def _turn(work: Work, control: Control, position: str, doing: str) -> None:
    now = work.control(control.name)
    if now == position and not any(
        work.excused(Sort.CONTROL, control.name, other) for other in control.positions if other != position
    ):
        work.find(
            "step-without-effect",
            f"{doing}, where it stands already",
            suggestion="delete this step, or name the position that was meant",
            against=control.place,
            because=called(control),
            item=control.name,
        )
        work.doubt(Sort.CONTROL, control.name)
        return
    work.put_control(control.name, position)
    work.settle(Sort.CONTROL, control.name)
