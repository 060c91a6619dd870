"""The power switch springs back when it is let go."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The power switch stays where it is set."""
    if hold.power is None:
        return
    switch = hold.controls[hold.power.switch]
    if switch.is_held:
        yield Complaint(
            f"“{switch.name}” turns power on, but springs back when it is let go",
            hold.power.place.child("switch"),
            "name the switch that stays, or take `hold-to-run` and `returns` from it",
            (Related(switch.place, f"“{switch.name}”"),),
            (("item", switch.name),),
        )


RULE = HoldRule("power-switch-held", Severity.ERROR, check)
