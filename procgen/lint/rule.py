"""What a rule is to the engine: a name, a severity and a small pure function that yields complaints."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from procgen.diagnostics import Finding, Place, Related, Severity
from procgen.lint.reading import Reading
from procgen.model.hold import Hold
from procgen.model.station import Network


@dataclass(frozen=True, slots=True)
class Complaint:
    """A finding before the engine stamps the rule's name and severity on it."""

    message: str
    place: Place
    suggestion: str = ""
    related: tuple[Related, ...] = ()
    subject: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class HoldRule:
    """A rule about one hold; the network gives the unit types and bases it speaks of."""

    name: str
    severity: Severity
    check: Callable[[Hold, Network], Iterator[Complaint]]


@dataclass(frozen=True, slots=True)
class NetworkRule:
    """A rule about the fleet and the stations together.

    With `whole`, it runs only where every file was read: it complains of what is missing or unused, and a
    file that could not be read would make it cry wolf.
    """

    name: str
    severity: Severity
    check: Callable[[Network], Iterator[Complaint]]
    whole: bool = False


@dataclass(frozen=True, slots=True)
class ProcedureRule:
    """A rule about the safety content of one procedure."""

    name: str
    severity: Severity
    check: Callable[[Reading], Iterator[Complaint]]


def stamped(
    rule: HoldRule | NetworkRule | ProcedureRule, complaint: Complaint, *about: tuple[str, str]
) -> Finding:
    """The finding that a complaint of `rule` becomes; `about` opens its subject."""
    return Finding(
        rule.name,
        complaint.message,
        complaint.place,
        rule.severity,
        complaint.suggestion,
        complaint.related,
        (*about, *complaint.subject),
    )
