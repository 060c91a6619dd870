"""A control that stays where it is set drives a unit or lowers a restraint."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Place, Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The controls of `run-by` and `lowered-by` are held ones: they work only while somebody holds them."""
    for name, control in hold.controls.items():
        works = [] if control.is_held else [*_works(hold, name)]
        if works:
            yield Complaint(
                f"“{name}” {' and '.join(does for does, _ in works)} only while it is held, but it"
                " stays where it"
                " is set",
                control.place.key(),
                "write `hold-to-run: true` or `returns: when-clear`; or let another control do it",
                tuple(Related(place, does) for does, place in works),
                (("item", name),),
            )


def _works(hold: Hold, control: str) -> Iterator[tuple[str, Place]]:
    for drive in hold.drives.values():
        if drive.run_by == control:
            yield f"runs “{drive.name}”", drive.place.child("run-by")
    for item in hold.restraints.values():
        if control in item.lowered_by:
            yield f"lowers “{item.name}”", item.place.child("lowered-by", control)


RULE = HoldRule("control-not-held", Severity.ERROR, check)
