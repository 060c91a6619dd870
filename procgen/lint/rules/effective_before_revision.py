"""A revision takes effect before it was written."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """The effective date of each station's revision is not before its date (ISO 8601)."""
    for station in network.stations.values():
        revision = station.revision
        if revision.effective < revision.date:
            yield Complaint(
                f"the revision takes effect on {revision.effective}, before it was written on"
                f" {revision.date}",
                revision.place.child("effective"),
                "correct one of the two dates",
                (Related(revision.place.child("date"), "the date of the revision"),),
                (("station", station.code),),
            )


RULE = NetworkRule("effective-before-revision", Severity.ERROR, check)
