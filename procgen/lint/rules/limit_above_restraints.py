"""A position may carry more than its restraints hold."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.rule import Complaint, HoldRule
from procgen.lint.strength import counts, mass_held, unrestrained
from procgen.model.hold import Hold, Position
from procgen.model.station import Network
from procgen.model.words import LoadDirection


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Position limit against the sum of ratings over the load factor, in the weakest direction."""
    for position in hold.positions.values():
        held = [(mass, way) for way in LoadDirection if (mass := mass_held(hold, position.name, way))]
        if not held or unrestrained(hold, position.name):
            continue
        weakest, way = min(held, key=lambda pair: pair[0].si)
        for code, stated in position.max_mass.items():
            if stated.quantity > weakest:
                most = weakest.to(stated.quantity.unit.symbol)
                factor = hold.load_factors.by_direction[way]
                yield Complaint(
                    f"position “{position.name}” may carry {stated.quantity} of “{code}”, but what"
                    f" holds it {way}"
                    f" is enough for {most.down(1)} only at {factor.quantity}",
                    stated.place,
                    f"write at most {most.down()}, or correct the ratings, the load factor or `held-by`",
                    (Related(factor.place, f"the load factor {way}"), *_ratings(hold, position, way)),
                    (("position", position.name),),
                )


def _ratings(hold: Hold, position: Position, way: LoadDirection) -> tuple[Related, ...]:
    items = [hold.restraints[name] for name in position.held_by]
    return tuple(
        Related(item.rating[way].place, f"“{item.name}”: {item.rating[way].quantity}")
        for item in items
        if way in item.rating and counts(hold, item, position.name, way)
    )


RULE = HoldRule("limit-above-restraints", Severity.ERROR, check)
