"""Looks at the latch of a closed door: two are due, and the first right after it was closed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from procgen.model.hold import Door
from procgen.model.step import Check, CheckLatch, Note, Report, Section, Step, Warn
from procgen.model.words import Looker
from procgen.results.state import State
from procgen.simulate.ledger import Ledger, Sort
from procgen.simulate.names import called, did_you_mean, listed
from procgen.simulate.scene import Scene
from procgen.simulate.things import wrong_verb
from procgen.simulate.work import Work

_NOTHING_DONE = (Section, Warn, Note, Check)
"""What may stand between closing a door and the look of whoever closed it."""
_WHO = {Looker.CLOSER: "whoever closed it", Looker.SECOND: "a second person"}


def look_at_latch(work: Work, step: CheckLatch) -> None:
    """Note that somebody has seen a door latched; a look in vain answers for one that is missing."""
    door = work.scene.hold.doors.get(step.door)
    if door is None:
        _unknown(work, step)
        return
    doubtful = work.ledger.in_doubt(Sort.DOOR, door.name)
    if door.name in work.state.open_doors:
        if not work.excused(Sort.DOOR, door.name, "closed"):
            work.find(
                "check-contradicts-hold",
                f"checks that {called(door)} is latched, but it is open",
                suggestion=f"close {called(door)} before this step",
                against=door.place,
                because=called(door),
                item=door.name,
            )
            work.doubt(Sort.DOOR, door.name)
            work.owe(Sort.LATCH, step.by)
        return
    unseen = work.state.unseen_by(door.name)
    if step.by is Looker.CLOSER and step.by in unseen and not doubtful:
        _right_after_closing(work, door)
    if step.by in unseen:
        seen = work.state.latch_seen[door.name] | {step.by}
        work.state = replace(work.state, latch_seen={**work.state.latch_seen, door.name: seen})


def _unknown(work: Work, step: CheckLatch) -> None:
    hold = work.scene.hold
    if not wrong_verb(work, step.door, "looks for the latch of"):
        work.find(
            "unknown-in-hold",
            f"looks at the latch of “{step.door}”, a door which {hold.name} does not have",
            suggestion=did_you_mean(step.door, tuple(hold.doors), "door"),
            item=step.door,
        )
    work.owe(Sort.LATCH, step.by)


def _right_after_closing(work: Work, door: Door) -> None:
    closed = work.ledger.touched.get((Sort.DOOR, door.name))
    if closed is None:
        return
    between = list(enumerate(work.scene.procedure.steps[closed : work.number - 1], start=closed + 1))
    other = next((number for number, step in between if _is_done(step, door)), None)
    if other is None:
        return
    work.find(
        "latch-seen-late",
        f"looks at the latch of {called(door)}, but whoever closed it in step {closed} "
        f"was to look before step {other}",
        suggestion=f"move this step to right after step {closed}",
        against=door.place,
        because=called(door),
        item=door.name,
    )


def _is_done(step: Step, door: Door) -> bool:
    """Whether a step is something else that is done; a look at another door's latch is not."""
    return not (isinstance(step, _NOTHING_DONE) or (isinstance(step, CheckLatch) and step.door != door.name))


def tell(work: Work, step: Report) -> None:
    """A report made with every door closed says that the hold is done: every latch was seen twice."""
    if work.state.open_doors:
        return
    for door, missing in unseen(work.scene, work.state, work.ledger):
        work.find(
            "latch-not-seen-twice",
            f"reports {step.what}, but {not_seen(missing)} the latch of {called(door)}",
            suggestion=f"write {mend(door, missing)} before this step",
            against=door.place,
            because=called(door),
            item=door.name,
        )
    work.ledger = answered(work.scene, work.state, work.ledger)


def unseen(scene: Scene, state: State, ledger: Ledger) -> Iterator[tuple[Door, tuple[Looker, ...]]]:
    """Each closed door with those who should have looked at its latch, as far as nothing answers for them."""
    for name, door in scene.hold.doors.items():
        if ledger.in_doubt(Sort.DOOR, name):
            continue
        missing: list[Looker] = []
        for one in state.unseen_by(name):
            thing = f"{name}:{one}"
            if ledger.in_doubt(Sort.LATCH, thing):
                continue
            owed = ledger.answering(Sort.LATCH, thing, one)
            if owed is None:
                missing.append(one)
            else:
                ledger = owed
        if missing:
            yield door, tuple(missing)


def answered(scene: Scene, state: State, ledger: Ledger) -> Ledger:
    """The ledger when every look that is missing has been told of, or answered for."""
    for name in scene.hold.doors:
        for one in state.unseen_by(name):
            thing = f"{name}:{one}"
            owed = None if ledger.in_doubt(Sort.LATCH, thing) else ledger.answering(Sort.LATCH, thing, one)
            ledger = (owed or ledger).doubting(Sort.LATCH, thing)
    return ledger


def not_seen(missing: tuple[Looker, ...]) -> str:
    """Who has not looked, in words that go on with what was not looked at."""
    verb = "has" if len(missing) == 1 else "have"
    return f"{listed([_WHO[one] for one in missing])} {verb} not looked at"


def mend(door: Door, missing: tuple[Looker, ...]) -> str:
    """The steps that are missing, as they are written."""
    return " and ".join(f"`check: {{latched: {door.name}, by: {one}}}`" for one in missing)
