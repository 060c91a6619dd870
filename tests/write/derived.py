"""Procedures and pages of the demonstration, derived as a build derives them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from procgen.limits import position_table
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.plan import choose_units, plan
from procgen.results.page import PageStep, ProcedurePage
from procgen.results.plan import Plan
from procgen.results.state import state_at_rest
from procgen.write import compose, page
from tests.support import demo, demo_hold

HOLDS = ("SR-AFT", "TR-FWD")


def plan_for(hold: Hold, operation: Operation, positions: Sequence[str] | None = None) -> Plan:
    """The machine's plan for positions of a hold."""
    unit_types = demo().network.unit_types
    units = choose_units(hold, unit_types, positions)
    aboard = {u.name: u.bay for u in units.values()} if operation is Operation.UNLOADING else {}
    outcome = plan(hold, unit_types, state_at_rest(hold, aboard), operation, units)
    assert isinstance(outcome, Plan), outcome
    return outcome


@cache
def generated(name: str, operation: Operation) -> Procedure:
    """The procedure for all positions of a demonstration hold."""
    hold = demo_hold(name)
    return compose(plan_for(hold, operation), hold, demo().network.hazards)


@cache
def demo_procedures() -> tuple[Procedure, ...]:
    """Every procedure of the demonstration, generated and written by hand."""
    made = [generated(name, operation) for name in HOLDS for operation in Operation]
    stations = demo().network.stations.values()
    return (*made, *(procedure for station in stations for procedure in station.procedures))


def page_of(
    procedure: Procedure, hold: Hold | None = None, network: Network | None = None, mass_unit: str = ""
) -> ProcedurePage:
    """A procedure in words; for its demonstration hold and the demonstration's data where not given."""
    known = network or demo().network
    hold = hold or known.holds[procedure.hold]
    table = position_table(hold, known.unit_types)
    return page(procedure, hold, known.unit_types, known.hazards, table, mass_unit=mass_unit)


def steps_of(shown: ProcedurePage) -> list[PageStep]:
    """All steps of a page."""
    return [step for block in shown.blocks for step in block.steps]
