"""The reader of the hazard list."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.load.node import Node
from procgen.model.hazard import CheckPhrase, Frequency, Hazard, HazardList, Match, RequiredCheck, Scope
from procgen.model.words import SignalWord


def hazards(root: Node) -> HazardList:
    """The hazards, the checks they name and the reports they ask for."""
    checks, reports = _phrases(root["checks"]), _phrases(root["reports"])
    return HazardList(
        hazards={
            name: _hazard(name, one, tuple(checks), tuple(reports)) for name, one in root["hazards"].items()
        },
        checks=checks,
        reports=reports,
    )


def _phrases(node: Node) -> Mapping[str, CheckPhrase]:
    return {
        name: CheckPhrase(
            name, one["text"].text(), one["done-when"].text(""), one["if-not"].text(""), one.place
        )
        for name, one in node.items()
    }


def _hazard(name: str, node: Node, checks: tuple[str, ...], reports: tuple[str, ...]) -> Hazard:
    return Hazard(
        name=name,
        title=node["title"].text(),
        signal=node["signal"].word(SignalWord),
        scope=node["scope"].word(Scope),
        comes_with=tuple(_match(one, checks) for one in node["comes-with"].elements()),
        hazard=node["hazard"].text(),
        consequence=node["consequence"].text(),
        avoid=node["avoid"].text(),
        checks=tuple(_required(one, checks) for one in node["checks"].elements()),
        reports=node["reports"].references("report", reports),
        source=node["source"].text(),
        place=node.place,
        several_doors=node["several-doors"].flag(),
    )


def _required(node: Node, checks: tuple[str, ...]) -> RequiredCheck:
    return RequiredCheck(
        condition=node["condition"].refer("check", checks),
        before=_match(node["before"], checks),
        after=_match(node["after"], checks) if "after" in node else None,
        frequency=node["frequency"].word(Frequency, Frequency.ONCE),
        place=node.place,
    )


def _match(node: Node, checks: tuple[str, ...]) -> Match:
    return Match(
        verbs=_set(node["verbs"]),
        kinds=_set(node["kinds"]),
        reached_from=_set(node["reached-from"]),
        operations=_set(node["operations"]),
        conditions=frozenset(node["conditions"].references("check", checks)),
    )


def _set(node: Node) -> frozenset[str]:
    return frozenset(element.text() for element in node.elements())
