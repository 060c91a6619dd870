"""A panel has nothing behind it."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Some control, or another panel, is behind each panel."""
    used = {control.behind for control in hold.controls.values()}
    used |= {panel.behind for panel in hold.panels.values()}
    for name, panel in hold.panels.items():
        if name not in used:
            yield Complaint(
                f"nothing is behind “{name}”",
                panel.place.key(),
                f"write `behind: {name}` at the controls behind it, or delete it",
                subject=(("item", name),),
            )


RULE = HoldRule("panel-unused", Severity.WARNING, check)
