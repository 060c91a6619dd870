"""Seed faults into the clean procedures of every hold and see what the check finds."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from procgen import lint
from procgen.faults import Score, Verdict, mutants, verdict
from procgen.model.station import Network
from procgen.pipeline.checking import Checked, CheckedProcedure
from procgen.simulate import simulate


def seed_faults(checked: Checked, only: Collection[str] | None = None) -> Score:
    """Judge every mutant of every generated and hand-written procedure that is clean itself.

    `only` names the procedures to take; without it all are.
    """
    written = [procedure for procedures in checked.written.values() for procedure in procedures]
    known = [one for one in (*checked.generated.values(), *written) if not one.findings]
    clean = [one for one in known if only is None or one.procedure.name in only]
    return Score(tuple(v for one in clean for v in _verdicts(one, checked.network)))


def _verdicts(clean: CheckedProcedure, network: Network) -> Iterator[Verdict]:
    for mutant in mutants(clean.procedure, clean.hold):
        trace = simulate(clean.hold, network.unit_types, mutant.procedure)
        content = lint.check_procedure(mutant.procedure, clean.hold, network.hazards)
        rules = tuple(dict.fromkeys(finding.rule for finding in (*trace.findings, *content)))
        yield verdict(clean.procedure.name, mutant, rules, clean.trace.final, trace.final)
