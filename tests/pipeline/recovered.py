"""The demonstration's ways out, made once for all tests."""

from __future__ import annotations

from functools import cache

from procgen.limits import position_table
from procgen.model.step import Procedure
from procgen.model.words import Operation
from procgen.pipeline.checking import derive
from procgen.pipeline.recovering import recoveries
from procgen.results.page import ProcedurePage, RecoveryGuide
from procgen.results.recovery import Case
from procgen.results.trace import Trace
from procgen.simulate import simulate
from procgen.write import page, recovery_guide
from tests.support import demo, demo_hold


@cache
def procedure_of(hold: str, operation: Operation) -> Procedure:
    """A demonstration procedure as it is published."""
    made = derive(demo().network, demo_hold(hold), operation)
    assert isinstance(made, Procedure)
    return made


@cache
def trace_of(hold: str, operation: Operation) -> Trace:
    """Its simulation."""
    return simulate(demo_hold(hold), demo().network.unit_types, procedure_of(hold, operation))


@cache
def cases_of(hold: str, operation: Operation) -> tuple[Case, ...]:
    """Every mishap at every step of it."""
    network, made = demo().network, procedure_of(hold, operation)
    return recoveries(demo_hold(hold), network.unit_types, network.hazards, made, trace_of(hold, operation))


@cache
def page_of(hold: str, operation: Operation) -> ProcedurePage:
    """It in words."""
    network, described = demo().network, demo_hold(hold)
    table = position_table(described, network.unit_types)
    return page(procedure_of(hold, operation), described, network.unit_types, network.hazards, table)


@cache
def guide_of(hold: str, operation: Operation) -> RecoveryGuide:
    """Its ways out in words."""
    network, described = demo().network, demo_hold(hold)
    return recovery_guide(
        procedure_of(hold, operation),
        page_of(hold, operation),
        cases_of(hold, operation),
        described,
        network.unit_types,
        network.hazards,
        position_table(described, network.unit_types),
    )
