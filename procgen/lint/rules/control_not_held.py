"""A control that stays where it is set drives a unit or lowers a restraint."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Place, Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Control, Hold
from procgen.model.station import Network


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """The controls of `run-by` and `lowered-by` are held ones: they work only while somebody holds them."""
    for drive in hold.drives.values():
        if not hold.controls[drive.run_by].is_held:
            yield _complaint(hold.controls[drive.run_by], drive.place.child("run-by"), f"runs “{drive.name}”")
    for item in hold.restraints.values():
        for name in item.lowered_by:
            if not hold.controls[name].is_held:
                place = item.place.child("lowered-by", name)
                yield _complaint(hold.controls[name], place, f"lowers “{item.name}”")


def _complaint(control: Control, place: Place, does: str) -> Complaint:
    return Complaint(
        f"“{control.name}” {does} only while it is held, but it stays where it is set",
        place,
        "write `hold-to-run: true` or `returns: when-clear` at the control, or name the control that is held",
        (Related(control.place, f"“{control.name}”"),),
        (("item", control.name),),
    )


RULE = HoldRule("control-not-held", Severity.ERROR, check)
