"""Unit load devices and loose loads: base sizes and unit types, by their trade codes."""

from __future__ import annotations

from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place
from procgen.model.stated import SourceRef, Stated
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class BaseSize:
    """The footprint of a unit as it stands in the hold: `length` along x, `width` along y."""

    code: str
    length: Quantity
    width: Quantity
    source: SourceRef | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class UnitType:
    """A container or pallet type: base, height, contour code and maximum gross mass.

    A `loose` type is no container or pallet but a load of pieces, stowed by hand to suit a bulk section. It
    has no body of its own: base (with an empty code) and height are nought, the contour is empty. It
    covers the section that it lies in, and whoever reckons with a base takes that section's rectangle.
    """

    code: str
    title: str
    base: BaseSize
    height: Quantity
    contour: str
    max_gross: Stated
    tare: Stated | None = None
    place: Place = field(default=NOWHERE, compare=False)
    loose: bool = False
