"""A hand-written procedure is called like one that is derived."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network
from procgen.model.words import Operation


def check(network: Network) -> Iterator[Complaint]:
    """No procedure of a station has the name of a derived one: HOLD-loading or HOLD-unloading."""
    derived = {f"{hold}-{operation}" for hold in network.holds for operation in Operation}
    for station in network.stations.values():
        for procedure in station.procedures:
            if procedure.name in derived:
                yield Complaint(
                    f"“{procedure.name}” is the name of the procedure that is derived for that hold",
                    procedure.place.child("procedure"),
                    f"call it otherwise, as in “{station.code.lower()}-{procedure.name}”",
                    (),
                    (("procedure", procedure.name), ("hold", procedure.hold)),
                )


RULE = NetworkRule("procedure-named-like-derived", Severity.ERROR, check)
