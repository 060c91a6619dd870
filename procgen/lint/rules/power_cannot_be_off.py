"""The power is on when nobody has switched it on."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The switch stays where it is set, rests in another position than on, and on is not off."""
    if hold.power is None:
        return
    power, switch = hold.power, hold.controls[hold.power.switch]
    about = (("item", switch.name),)
    here = (Related(switch.place, f"“{switch.name}”"),)
    if power.on == power.off:
        yield Complaint(
            f"“{power.on}” is both on and off",
            power.place.child("off"),
            f"name two positions of “{switch.name}”: {', '.join(switch.positions)}",
            here,
            about,
        )
    elif power.on == switch.rest:
        yield Complaint(
            f"“{switch.name}” rests in “{switch.rest}”, which is on: power would be on from the start",
            power.place.child("on"),
            f"put “{power.off}” first in the positions of “{switch.name}”, or exchange `on` and `off`",
            here,
            about,
        )


RULE = HoldRule("power-cannot-be-off", Severity.ERROR, check)
