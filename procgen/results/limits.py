"""Limit tables: every cell with its value, what governs it and every other candidate."""

from __future__ import annotations

from dataclasses import dataclass, field

from procgen.diagnostics import Place
from procgen.model.stated import SourceRef
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Candidate:
    """One thing that limits the mass in a position.

    `kind` is a plain hyphenated name (`unit-maximum`, `position-limit`, `running-load`, `area-load`,
    `restraint-forward` ..., `zone-NAME`, `zone-running-NAME`, `zone-pair-NAME-ONE-OTHER`,
    `cumulative-NAME`). `mass` is exact, in the unit it derives from. `reckoning`
    shows the arithmetic in words.
    """

    kind: str
    title: str
    mass: Quantity
    reckoning: str
    sources: tuple[SourceRef, ...]
    places: tuple[Place, ...] = field(compare=False)


@dataclass(frozen=True, slots=True)
class LimitCell:
    """What one position may carry of one unit type.

    Not acceptable: `limit` is None and `reasons` say why. Acceptable: `candidates` are sorted by mass,
    the first one governs and is the `limit`.
    """

    position: str
    unit_type: str
    candidates: tuple[Candidate, ...]
    reasons: tuple[str, ...] = ()

    @property
    def governing(self) -> Candidate | None:
        """The least candidate, or None where the unit type is not acceptable."""
        return self.candidates[0] if self.candidates and not self.reasons else None

    @property
    def limit(self) -> Quantity | None:
        """The most this position may carry of this type."""
        governing = self.governing
        return governing.mass if governing else None


@dataclass(frozen=True, slots=True)
class LimitTable:
    """All cells of a hold, position by position in the order of the description."""

    hold: str
    cells: tuple[LimitCell, ...]
