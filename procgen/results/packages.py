"""What goes through a door: the door, the hold behind it, and the longest piece for each width and height."""

from __future__ import annotations

from dataclasses import dataclass, field

from procgen.diagnostics import Place
from procgen.model.stated import SourceRef
from procgen.units import Quantity, of


@dataclass(frozen=True, slots=True)
class Doorway:
    """A door in a side wall: clear width along x, clear height, thickness of the wall, and how far its
    forward edge lies aft of the hold's forward end.
    """

    width: Quantity
    height: Quantity
    thickness: Quantity
    from_end: Quantity


@dataclass(frozen=True, slots=True)
class CrossSection:
    """The clear width of a hold across, by height above the floor: corners of its outline, floor first.

    Between two corners the width changes evenly. Raises `ValueError` unless heights grow from zero.
    """

    corners: tuple[tuple[Quantity, Quantity], ...]

    def __post_init__(self) -> None:
        heights = [height.si for height, _ in self.corners]
        if len(heights) < 2 or heights[0] != 0 or sorted(set(heights)) != heights:
            raise ValueError("a cross-section has corners from the floor upwards")

    @property
    def height(self) -> Quantity:
        """The clear height."""
        return self.corners[-1][0]

    def width_up_to(self, height: Quantity) -> Quantity | None:
        """The least clear width from the floor to a height; None above the clear height."""
        if height > self.height:
            return None
        least = self.corners[0][1]
        for (low, below), (high, above) in zip(self.corners, self.corners[1:], strict=False):
            if low >= height:
                break
            top = min(high, height)
            part = (top.si - low.si) / (high.si - low.si)
            least = min(least, of(below.si + (above.si - below.si) * part, "m"))
        return least


@dataclass(frozen=True, slots=True)
class Longest:
    """The longest piece of a width and height that goes in, cut to whole millimetres.

    `way` is `straight` (length first, not turned), `sideways` (long side along the hold, not turned) or
    `turned`; `why` says what stops a longer one. No length: no piece of this width goes in that is at
    least as long as it is wide.
    """

    width: Quantity
    height: Quantity
    length: Quantity | None
    way: str
    why: str


@dataclass(frozen=True, slots=True)
class PackageTable:
    """The longest pieces by height, then by width, in the order that was asked for."""

    rows: tuple[tuple[Longest, ...], ...]


@dataclass(frozen=True, slots=True)
class DoorWays:
    """What goes through a door: for each height and width the ways in, the best first, and where the numbers
    come from.
    """

    door: str
    pieces: tuple[tuple[Longest, ...], ...]
    sources: tuple[SourceRef, ...] = ()
    places: tuple[Place, ...] = field(default=(), compare=False)
