"""The reader of a procedure written by hand."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import Related
from procgen.load.effectivity import effectivity
from procgen.load.fleet import ToldApart
from procgen.load.node import Node
from procgen.load.steps import StepNames, step
from procgen.model.effectivity import Effectivity, Registered
from procgen.model.step import OutOfService, PlannedUnit, Procedure
from procgen.model.words import Failure, Operation


@dataclass(frozen=True, slots=True)
class Context:
    """What a procedure may refer to outside itself.

    `holds` maps every hold to its bays; the bays are None where the hold could not be read. `failures`
    says of every hold that could be built what can be out of service in it, and how; `fleet` which aircraft
    have it.
    """

    holds: Mapping[str, Collection[str] | None] | None
    unit_types: tuple[str, ...] | None
    steps: StepNames
    fleet: Mapping[str, Mapping[str, Registered]] = field(default_factory=dict)
    failures: Mapping[str, Mapping[str, tuple[Failure, ...]]] = field(default_factory=dict)


def procedure(root: Node, context: Context) -> Procedure | None:
    """One procedure; None where something keeps it from being built."""
    hold = root["hold"].refer("hold", None if context.holds is None else tuple(context.holds))
    bays = (context.holds or {}).get(hold)
    units = _units(root["units"], context, bays)
    aboard = _units(root["aboard"], context, bays)
    put_back = tuple(dict.fromkeys(root["put-back"].references("unit", tuple(aboard))))
    jammed = tuple(dict.fromkeys(root["jammed"].references("unit", (*units, *aboard))))
    _twice(root)
    name = root["procedure"].text()
    record = Procedure(
        name=name,
        hold=hold,
        operation=root["operation"].word(Operation),
        units=units,
        steps=tuple(step(one, context.steps) for one in root["steps"].elements()),
        aboard=aboard,
        title=root["title"].text(name),
        place=root.place,
        out_of_service=_out_of_service(root["out-of-service"], context.failures.get(hold)),
        put_back=put_back,
        jammed=jammed,
        effectivity=_effectivity(root["effectivity"], hold, context) if "effectivity" in root else None,
    )
    return None if root.log.broken else record


def _effectivity(node: Node, hold: str, context: Context) -> Effectivity:
    """Which of the aircraft that have the hold; it names none that has another description of it."""
    mine = context.fleet.get(hold)
    configurations = tuple(dict.fromkeys(one.configuration for one in (mine or {}).values()))
    known = None if mine is None else ToldApart(configurations, tuple(mine))
    found = effectivity(node, known, "of an aircraft that has this hold")
    if isinstance(node.data, dict) and not any(node.data.values()):
        node.log.wrong(
            "missing-value",
            "the procedure applies to no aircraft: neither a configuration nor a registration is named",
            node.key,
            f"name some ({', '.join(mine or ()) or 'none is in the fleet file'}); or delete “effectivity” if"
            " it is for every aircraft that has the hold",
        )
    return found


def _units(node: Node, context: Context, bays: Collection[str] | None) -> Mapping[str, PlannedUnit]:
    return {
        name: PlannedUnit(
            name,
            one["type"].refer("unit type", context.unit_types),
            one["bay"].refer("bay", bays),
            one.place,
        )
        for name, one in node.items()
    }


def _out_of_service(
    node: Node, failures: Mapping[str, tuple[Failure, ...]] | None
) -> tuple[OutOfService, ...]:
    """What does not work; an item fails only in the ways in which it can."""
    found = []
    for name, one in node.items():
        one.refer_key(name, "item", failures)
        failure = one.word(Failure)
        ways = (failures or {}).get(name, ())
        if ways and one.data in tuple(Failure) and failure not in ways:
            one.log.wrong(
                "impossible-failure",
                f"“{name}” cannot be {failure}",
                one.place,
                f"write {' or '.join(ways)}",
            )
        found.append(OutOfService(name, failure, one.place))
    return tuple(found)


def _twice(root: Node) -> None:
    """One unit is named once, and one bay has one unit."""
    names: dict[str, Node] = {}
    bays: dict[str, Node] = {}
    for group in ("units", "aboard"):
        for name, unit in root[group].items():
            if name in names:
                root.log.wrong(
                    "name-used-twice",
                    f"“{name}” is moved and stays aboard; it can do one of the two",
                    unit.key,
                    "delete one, or give it another name",
                    Related(names[name].key, "the first one"),
                )
            names.setdefault(name, unit)
            bay = unit["bay"]
            if not isinstance(bay.data, str):
                continue
            if bay.data in bays:
                root.log.wrong(
                    "bay-given-twice",
                    f"two units have bay “{bay.data}”; one bay holds one unit",
                    bay.place,
                    "give one of them another bay",
                    Related(bays[bay.data].place, "the first one"),
                )
            bays.setdefault(bay.data, bay)
