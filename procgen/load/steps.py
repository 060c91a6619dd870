"""The reader of steps: verbs and shape. What a step does to the hold is for the simulator to find."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from procgen.diagnostics import Related
from procgen.load.node import Node
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Close,
    Drive,
    Fit,
    Lower,
    Note,
    Open,
    Present,
    Push,
    Raise,
    Remove,
    Report,
    Section,
    SetControl,
    Step,
    Stow,
    Warn,
)
from procgen.model.words import Looker, RestraintState, SectionName

MACHINE_CHECKS = ("path-clear", "everyone-out")
"""Checks that mean something to the machine, known whether or not the hazard list words them."""


@dataclass(frozen=True, slots=True)
class StepNames:
    """Names outside the hold that a step may use."""

    hazards: tuple[str, ...] | None
    checks: tuple[str, ...] | None
    reports: tuple[str, ...] | None


def step(node: Node, names: StepNames) -> Step:
    """One step; an empty note where it is none."""
    if isinstance(node.data, dict) and len(node.data) == 1:
        ((verb, value),) = node.items()
        if verb in _READERS:
            return _READERS[verb](node, value, names)
    node.log.broken = True
    return Note("", node.place)


def _section(node: Node, value: Node, names: StepNames) -> Step:
    return Section(value.word(SectionName), node.place)


def _warn(signal: str) -> Callable[[Node, Node, StepNames], Step]:
    def read(node: Node, value: Node, names: StepNames) -> Step:
        return Warn(signal, value.refer("hazard", names.hazards), node.place)

    return read


def _named(kind: Callable[..., Step]) -> Callable[[Node, Node, StepNames], Step]:
    def read(node: Node, value: Node, names: StepNames) -> Step:
        return kind(value.text(), place=node.place)

    return read


def _set(node: Node, value: Node, names: StepNames) -> Step:
    control, position = next(iter(_held(value).items()), ("", ""))
    return SetControl(control, position, node.place)


def _held(node: Node) -> Mapping[str, str]:
    return {control: position.text() for control, position in node.items()}


def _through(node: Node) -> tuple[str, ...]:
    return tuple(element.text() for element in node["through"].elements())


def _drive(node: Node, value: Node, names: StepNames) -> Step:
    return Drive(value["unit"].text(), _held(value["hold"]), _through(value), node.place)


def _push(node: Node, value: Node, names: StepNames) -> Step:
    crew = value["crew"].whole()
    return Push(value["unit"].text(), crew, _through(value), _held(value["hold"]), node.place)


def _pull(node: Node, value: Node, names: StepNames) -> Step:
    crew, gear = value["crew"].whole(), value["with"].text()
    return Push(value["unit"].text(), crew, _through(value), _held(value["hold"]), node.place, gear)


def _stow(node: Node, value: Node, names: StepNames) -> Step:
    return Stow(value["unit"].text(), value["crew"].whole(), _through(value), node.place)


def _present(node: Node, value: Node, names: StepNames) -> Step:
    if not isinstance(value.data, dict):
        return Present(value.text(), place=node.place)
    return Present(value["unit"].text(), value["door"].text(), node.place)


def _check(node: Node, value: Node, names: StepNames) -> Step:
    if not isinstance(value.data, dict):
        return Check(_condition(value, names), None, node.place)
    _one_way(value)
    for state in RestraintState:
        if state.value in value:
            items = tuple(element.text() for element in value[state.value].elements())
            return CheckItems(items, state, node.place)
    if "latched" in value:
        return CheckLatch(value["latched"].text(), value["by"].word(Looker), node.place)
    unit = value["unit"].text() if "unit" in value else None
    return Check(_condition(value["condition"], names), unit, node.place)


def _condition(node: Node, names: StepNames) -> str:
    known = None if names.checks is None else tuple(dict.fromkeys((*names.checks, *MACHINE_CHECKS)))
    return node.refer("check", known)


def _one_way(value: Node) -> None:
    """A check names a condition, or restraints that are up or down, or a door that is latched."""
    ways = [key for key in ("condition", "raised", "lowered", "latched") if key in value]
    if len(ways) > 1:
        value.log.wrong(
            "contradicting-keys",
            f"one check says “{ways[0]}” and “{ways[1]}”",
            value[ways[1]].key,
            "write each as a check of its own",
            Related(value[ways[0]].key, "the first one"),
        )
    elif not ways and "unit" in value:
        value.log.wrong(
            "missing-key",
            "the check does not say its “condition”",
            value.key,
            "add “condition: NAME”, or “raised: [ITEM]”, or “lowered: [ITEM]”, or “latched: DOOR”",
        )
    elif ways and ways[0] != "condition" and "unit" in value:
        looked_at = "a door that is" if ways[0] == "latched" else "restraints that are"
        value.log.wrong(
            "contradicting-keys",
            f"a check of {looked_at} {ways[0]} is not made for a unit",
            value["unit"].key,
            "delete “unit”",
            Related(value[ways[0]].key, "what is looked at"),
        )
    _who_looks(value, ways)


def _who_looks(value: Node, ways: Sequence[str]) -> None:
    """Who looks is said of a latch, always, and of nothing else."""
    if "latched" in value and "by" not in value:
        value.log.wrong(
            "missing-key",
            "the look at the latch does not say “by” whom",
            value.key,
            "add “by: closer”, or “by: second-person”",
        )
    elif "by" in value and "latched" not in value:
        value.log.wrong(
            "contradicting-keys" if ways else "missing-key",
            "the check says “by” whom, which is said of a latch only",
            value["by"].key,
            "delete “by”" if ways else "add “latched: DOOR”",
        )


def _report(node: Node, value: Node, names: StepNames) -> Step:
    return Report(value.refer("report", names.reports), node.place)


_READERS: Mapping[str, Callable[[Node, Node, StepNames], Step]] = {
    "section": _section,
    "warning": _warn("warning"),
    "caution": _warn("caution"),
    "notice": _warn("notice"),
    "open": _named(Open),
    "close": _named(Close),
    "set": _set,
    "raise": _named(Raise),
    "lower": _named(Lower),
    "fit": _named(Fit),
    "remove": _named(Remove),
    "present": _present,
    "drive": _drive,
    "push": _push,
    "pull": _pull,
    "stow": _stow,
    "check": _check,
    "report": _report,
    "note": _named(Note),
}
