"""The empty aircraft does not stand on all its wheels."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, NetworkRule
from procgen.model.station import Network
from procgen.units import of


def check(network: Network) -> Iterator[Complaint]:
    """The empty arm between nose and main gear; the least share no more than it has empty."""
    for aircraft in network.aircraft.values():
        gear, empty = aircraft.gear, aircraft.empty
        if gear is None or empty is None:
            continue
        related = (Related(gear.place, f"nose gear at {gear.nose}, main gear at {gear.main}"),)
        if not gear.nose < empty.arm < gear.main:
            yield Complaint(
                f"“{aircraft.name}” has its empty centre of gravity at {empty.arm}, not between the nose gear"
                f" ({gear.nose}) and the main gear ({gear.main}): it would not stand on its wheels",
                empty.place.child("arm"),
                "correct the arm, or where the wheels stand; all count from the same datum",
                related,
                (("aircraft", aircraft.name),),
            )
            continue
        share = of(100 * (gear.main.si - empty.arm.si) / (gear.main.si - gear.nose.si), "%")
        if share < gear.least_share.quantity:
            yield Complaint(
                f"“{aircraft.name}” must keep {gear.least_share.quantity} on its nose gear, but has only"
                f" {share.down(1)} on it when empty",
                gear.least_share.place,
                "correct the share, the arm of the empty aircraft, or where the wheels stand",
                (Related(empty.place.child("arm"), "the empty aircraft"), *related),
                (("aircraft", aircraft.name),),
            )


RULE = NetworkRule("gear-out-of-balance", Severity.ERROR, check)
