"""Something is written for no aircraft at all."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.effectivity import applies_to
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """An effectivity covers at least one aircraft."""
    registered = network.aircraft[hold.aircraft].registrations
    if hold.effectivity is None or applies_to(hold.effectivity, registered):
        return
    known = ", ".join(registered) or "none: give them in the fleet file"
    yield Complaint(
        f"hold “{hold.name}” applies to no aircraft: no registration of {hold.aircraft} is named, or has a"
        " configuration that is",
        hold.effectivity.place.key(),
        f"name configurations or registrations ({known}); or delete “effectivity” if every aircraft has it",
    )


RULE = HoldRule("effectivity-empty", Severity.ERROR, check)
