"""A control and the panel over it are said to be in different places."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """A control stands where its panel stands."""
    for name, control in hold.controls.items():
        panel = hold.panels[control.behind] if control.behind else None
        if panel is not None and panel.at is not control.at:
            yield Complaint(
                f"“{name}” is {control.at}, but the panel over it, “{panel.name}”, is {panel.at}",
                control.place.child("behind"),
                f"write the same `at` at “{name}” and “{panel.name}”, or name its own panel",
                (Related(panel.place.child("at"), f"“{panel.name}”"),),
                (("item", name),),
            )


RULE = HoldRule("control-behind-far-panel", Severity.ERROR, check)
