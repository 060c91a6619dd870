"""Published answers that ours are held against."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class CheckValue:
    """One case: what is asked, our exact answer, the published one, how far apart they may be, the source.

    All three numbers are in `unit`. The tolerance is what the published number was rounded or cut by.
    """

    what: str
    case: str
    ours: Fraction
    published: Fraction
    tolerance: Fraction
    unit: str
    source: str

    @property
    def difference(self) -> Fraction:
        """Ours less the published one."""
        return self.ours - self.published

    @property
    def agrees(self) -> bool:
        """Whether the difference is no more than the published number's own rounding."""
        return abs(self.difference) <= self.tolerance
