"""What a position may carry when restraints of its own are out of service."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.results.limits import LimitCell
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class MissingCell:
    """One position and unit type with the restraints `out`: the cell as it is with all of them (`whole`) and
    as it is without (`cell`; not acceptable where a direction is left without restraint: not usable then).
    """

    out: tuple[str, ...]
    whole: LimitCell
    cell: LimitCell

    @property
    def usable(self) -> bool:
        """Whether the position may still be loaded with this type."""
        return self.cell.governing is not None

    @property
    def lowered(self) -> bool:
        """Whether it may still be loaded, but with less than before."""
        before, after = self.whole.limit, self.cell.limit
        return before is not None and after is not None and after < before

    @property
    def limit(self) -> Quantity | None:
        """The most it may carry now; None where it is not usable."""
        return self.cell.limit


@dataclass(frozen=True, slots=True)
class MissingTable:
    """All such cells of a hold, in the order of its description: single restraints first, then pairs."""

    hold: str
    cells: tuple[MissingCell, ...]
