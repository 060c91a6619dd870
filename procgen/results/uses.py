"""How far a load uses each constraint on it: used, limit, margin, and which one binds first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from procgen.diagnostics import Place
from procgen.model.stated import SourceRef
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Use:
    """One constraint and how far it is used. `used` and `limit` are exact and of one dimension.

    `kind` is a plain hyphenated name (`running-load`, `area-load`, `combined` ...), `title` says it in
    words, `reckoning` shows the arithmetic.
    """

    kind: str
    title: str
    used: Quantity
    limit: Quantity
    reckoning: str
    sources: tuple[SourceRef, ...] = ()
    places: tuple[Place, ...] = field(default=(), compare=False)

    @property
    def met(self) -> bool:
        """Whether the load keeps to the limit; compared unrounded."""
        return self.used <= self.limit

    @property
    def margin(self) -> Quantity:
        """What is left, in the limit's unit; below zero where the limit is exceeded."""
        unit = self.limit.unit
        return Quantity((self.limit.si - self.used.si) / unit.factor, unit)

    @property
    def share(self) -> Fraction | None:
        """Used part of the limit; None where the limit is zero and so has no parts."""
        return self.used.si / self.limit.si if self.limit.si else None


def first_to_bind(uses: Iterable[Use]) -> Use | None:
    """The constraint that is used furthest: the first one exceeded as the load grows in proportion.

    A limit of zero that is used at all comes before every other. Of equal ones the first counts; None
    where there is no constraint.
    """
    ranked = list(uses)
    return max(ranked, key=_rank, default=None)


def _rank(use: Use) -> tuple[bool, Fraction]:
    share = use.share
    if share is None:
        return (use.used.si > 0, Fraction(0))
    return (False, share)
