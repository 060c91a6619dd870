"""Derive the steps that lead from a state of a hold to a goal, or say why there are none.

The planner has its own reading of the machine (docs/architecture.md): it shares no code with the
simulator, which checks every plan.
"""

from __future__ import annotations

from collections.abc import Mapping

from procgen.model.hold import Hold
from procgen.model.step import PlannedUnit
from procgen.model.unit import UnitType
from procgen.model.words import Operation
from procgen.plan.fit import choose_units, other_layouts
from procgen.plan.goal import Task
from procgen.plan.planning import planned
from procgen.plan.recovery import recover
from procgen.results.plan import NoPlan, Plan
from procgen.results.state import State

__all__ = ["choose_units", "other_layouts", "plan", "recover"]


def plan(
    hold: Hold,
    unit_types: Mapping[str, UnitType],
    start: State,
    operation: Operation,
    units: Mapping[str, PlannedUnit],
    aboard: Mapping[str, PlannedUnit] | None = None,
) -> Plan | NoPlan:
    """Lead from `start` to the goal: every one of `units` in its bay (loading) or outside (unloading).

    Units that `start` has in the hold and that are not to be moved stay where they are and stay secured;
    those of them in `aboard` are named in the plan. Everything ends closed. What `start` says is out of
    service is not used. The reasons of a `NoPlan` carry their places in the description.
    """
    task = Task(hold, unit_types, start, operation, units, aboard or {})
    return planned(task)
