"""Run the rules: a plain list of small functions; the engine stamps name and severity."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from procgen.diagnostics import Finding
from procgen.lint.reading import Reading
from procgen.lint.registry import HOLD_RULES, NETWORK_RULES
from procgen.lint.rule import stamped
from procgen.lint.safety import PROCEDURE_RULES
from procgen.model.hazard import HazardList
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.step import Procedure
from procgen.source.document import Document


def check_data(network: Network, documents: Mapping[str, Document] | None = None) -> tuple[Finding, ...]:
    """Look for what makes no sense in the data that was read.

    `documents` are those of the load by file; they tell whether every hold and station could be read. Rules
    that complain of something unused run only then. Findings come hold by hold, then for the network, in
    the order of the rules.
    """
    return tuple(_data_findings(network, _is_whole(network, documents)))


def _data_findings(network: Network, whole: bool) -> Iterator[Finding]:
    for hold in network.holds.values():
        for rule in HOLD_RULES:
            for complaint in rule.check(hold, network):
                yield stamped(rule, complaint, ("hold", hold.name))
    for network_rule in NETWORK_RULES:
        if whole or not network_rule.whole:
            for complaint in network_rule.check(network):
                yield stamped(network_rule, complaint)


def _is_whole(network: Network, documents: Mapping[str, Document] | None) -> bool:
    if documents is None:
        return True
    holds = sum(file.startswith("fleet/holds/") for file in documents)
    stations = sum(file.endswith("/station.yaml") for file in documents)
    return holds == len(network.holds) and stations == len(network.stations)


def check_procedure(procedure: Procedure, hold: Hold, hazards: HazardList) -> tuple[Finding, ...]:
    """Look whether a procedure carries the warnings, checks and reports that its steps call for.

    Says nothing of what the machine does: that is the simulation's. Findings come in the order of the rules.
    """
    reading = Reading(procedure, hold, hazards)
    return tuple(
        stamped(rule, complaint, ("procedure", procedure.name))
        for rule in PROCEDURE_RULES
        for complaint in rule.check(reading)
    )
