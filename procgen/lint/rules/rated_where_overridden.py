"""A restraint is rated in the direction in which a unit pushes it down."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.diagnostics import Related, Severity
from procgen.lint.lanes import pressed_in
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.words import Travel


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """No rating in the load direction that an `override` leads in."""
    for name, item in hold.restraints.items():
        places = item.between or item.beside
        for way in (way for way in Travel if way in item.override):
            pressed = pressed_in(hold, way, tuple(places))
            if pressed is not None and pressed in item.rating:
                yield Complaint(
                    f"“{name}” is rated {pressed}, but a unit that goes {way}, which is {pressed},"
                    " pushes it down",
                    item.rating[pressed].place,
                    f"take {pressed} out of the rating, or {way} out of `override`",
                    (Related(item.place.child("override"), "the directions in which it is pushed down"),),
                    (("item", name),),
                )


RULE = HoldRule("rated-where-overridden", Severity.ERROR, check)
