"""Tables of reckoned figures, each with its unit, what governs it, what else there is, and its sources."""

from __future__ import annotations

from dataclasses import dataclass, field

from procgen.diagnostics import Place
from procgen.model.stated import SourceRef
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Other:
    """Something else that a figure could have followed from, with the value it would have given."""

    title: str
    value: str
    reckoning: str = ""
    sources: tuple[SourceRef, ...] = ()
    places: tuple[Place, ...] = field(default=(), compare=False)


@dataclass(frozen=True, slots=True)
class Figure:
    """One number and its why.

    `number` is exact; a count (of people, of straps) is `count` with the word in `counted` instead. Neither:
    there is no such number, and `reasons` say why. `demand` says that it is shown rounded up, else down, to
    `decimals` places of its unit. `governs` names what the number follows from, `reckoning` shows how,
    `others` are all other candidates. `met` says of something asked whether it is met, None where nothing is.
    """

    number: Quantity | None = None
    count: int | None = None
    counted: str = ""
    demand: bool = False
    decimals: int = 0
    governs: str = ""
    reckoning: str = ""
    others: tuple[Other, ...] = ()
    reasons: tuple[str, ...] = ()
    met: bool | None = None
    sources: tuple[SourceRef, ...] = ()
    places: tuple[Place, ...] = field(default=(), compare=False)

    @property
    def shown(self) -> str:
        """The number in words, rounded to the safe side; a dash where there is none."""
        if self.count is not None:
            return f"{self.count} {self.counted}".rstrip()
        if self.number is None:
            return "–"
        return self.number.up(self.decimals) if self.demand else self.number.down(self.decimals)


@dataclass(frozen=True, slots=True)
class FigureRow:
    """One row: its labels under the table's `heads`, its figures under the table's `columns`.

    `sources` and `places` are those of the labels, where they are data themselves.
    """

    labels: tuple[str, ...]
    figures: tuple[Figure, ...]
    sources: tuple[SourceRef, ...] = ()
    places: tuple[Place, ...] = field(default=(), compare=False)


@dataclass(frozen=True, slots=True)
class FigureTable:
    """A table of figures. `name` is a plain hyphenated name, once in a hold; `remarks` say what is assumed,
    or why there are no rows.
    """

    name: str
    title: str
    heads: tuple[str, ...]
    columns: tuple[str, ...]
    rows: tuple[FigureRow, ...]
    remarks: tuple[str, ...] = ()

    @property
    def met(self) -> bool:
        """Whether nothing that is asked in it is unmet."""
        return not any(figure.met is False for row in self.rows for figure in row.figures)

    @property
    def answered(self) -> bool:
        """Whether there are rows, every figure in them has a number, and nothing that is asked is unmet."""
        figures = [figure for row in self.rows for figure in row.figures]
        numbers = all(figure.number is not None or figure.count is not None for figure in figures)
        return bool(self.rows) and numbers and self.met
