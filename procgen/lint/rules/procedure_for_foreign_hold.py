"""A station has a procedure for a hold that it does not work."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network


def check(network: Network) -> Iterator[Complaint]:
    """The hold of each procedure is among the holds of its station."""
    for station in network.stations.values():
        for procedure in station.procedures:
            if procedure.hold not in station.holds:
                yield Complaint(
                    f"“{procedure.name}” is for hold “{procedure.hold}”, which station “{station.code}”"
                    " does not"
                    " work",
                    procedure.place.child("hold"),
                    f"name one of its holds ({', '.join(station.holds)}), or add “{procedure.hold}” to them",
                    (Related(station.place.child("holds"), f"the holds of “{station.code}”"),),
                    (("procedure", procedure.name), ("hold", procedure.hold)),
                )


RULE = NetworkRule("procedure-for-foreign-hold", Severity.ERROR, check)
