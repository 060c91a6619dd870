"""A piece on the floor: what it is, what the floor allows, and the board that spreads it."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.model.stated import Stated
from procgen.units import Quantity, of

NO_TARE = of(0, "kg")
"""Nothing under or over the piece."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece as it stands: `length` along x and `width` along y of its footprint.

    `supports` equal feet or skids share its mass, each with a contact face of `support_length` x
    `support_width`; without them the whole footprint bears. `tare` is what stands or lies on the floor
    with it: pallet, boards, tie-downs. Raises `ValueError` where a size is not above zero.
    """

    mass: Quantity
    length: Quantity
    width: Quantity
    supports: int = 1
    support_length: Quantity | None = None
    support_width: Quantity | None = None
    tare: Quantity = NO_TARE

    def __post_init__(self) -> None:
        sizes = (self.mass, self.length, self.width, *self.face)
        if any(size.si <= 0 for size in sizes) or self.supports < 1 or self.tare.si < 0:
            raise ValueError("mass, sides, contact faces and number of supports are above zero")

    @property
    def face(self) -> tuple[Quantity, Quantity]:
        """The sides of the contact face of one support."""
        return (self.support_length or self.length, self.support_width or self.width)

    @property
    def load(self) -> Quantity:
        """All that the floor carries: the piece and its tare, in the unit of the piece."""
        unit = self.mass.unit
        return Quantity((self.mass.si + self.tare.si) / unit.factor, unit)


@dataclass(frozen=True, slots=True)
class FloorLimits:
    """What the floor carries: `running` as mass per length along x, `area` as mass per area of the whole
    footprint, `contact` as mass per area right under a support. None where the data gives no such limit.
    """

    running: Stated | None = None
    area: Stated | None = None
    contact: Stated | None = None


@dataclass(frozen=True, slots=True)
class Board:
    """A board under a piece, or one under each of its supports: least thickness and least sides."""

    thickness: Quantity
    length: Quantity
    width: Quantity
    reckoning: str
