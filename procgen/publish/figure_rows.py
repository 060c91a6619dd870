"""Tables of reckoned figures in words: a row per labels, a cell per column, a reason behind every cell."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.model.stated import SourceRef
from procgen.publish.reasons import Lined, Why, where
from procgen.results.figures import Figure, FigureRow, FigureTable
from procgen.units import Dimension


@dataclass(frozen=True, slots=True)
class Cell:
    """One figure under its column: `shown` is rounded to the safe side, `unmet` marks what falls short.

    `reasons` say why there is no number; `whys` how it comes about, what governs first. `plain` is a cell
    with nothing behind it.
    """

    column: str
    shown: str
    unmet: bool
    reasons: tuple[str, ...]
    whys: tuple[Why, ...]

    @property
    def plain(self) -> bool:
        """Whether there is nothing to open."""
        return not self.reasons and not self.whys


@dataclass(frozen=True, slots=True)
class Row:
    """Labels, the first of which names the row, with their heads; cells; where the labels come from."""

    labels: tuple[tuple[str, str], ...]
    cells: tuple[Cell, ...]
    sources: tuple[SourceRef, ...]
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table to show; `remarks` stand over it."""

    name: str
    title: str
    heads: tuple[str, ...]
    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    remarks: tuple[str, ...]


def shown_table(site: Lined, table: FigureTable, unit: str) -> Table:
    """A table in the station's unit of mass; sources of labels stand behind them where there are any."""
    return Table(
        table.name,
        table.title,
        table.heads,
        table.columns,
        tuple(_row(site, table, row, unit) for row in table.rows),
        table.remarks,
    )


def _row(site: Lined, table: FigureTable, row: FigureRow, unit: str) -> Row:
    return Row(
        labels=tuple(zip(table.heads, row.labels, strict=True)),
        cells=tuple(
            _cell(site, column, figure, unit)
            for column, figure in zip(table.columns, row.figures, strict=True)
        ),
        sources=row.sources,
        places=where(site, row.places),
    )


def _cell(site: Lined, column: str, figure: Figure, unit: str) -> Cell:
    shown = figure_text(figure, unit)
    places = where(site, figure.places)
    whys: tuple[Why, ...] = ()
    if figure.governs or figure.reckoning or figure.sources or places:
        title = figure.governs or column
        whys = (Why(title, shown, figure.reckoning, figure.sources, places),)
    whys += tuple(
        Why(one.title, one.value, one.reckoning, one.sources, where(site, one.places))
        for one in figure.others
    )
    return Cell(column, shown, figure.met is False, figure.reasons, whys)


_IN_BOTH = {
    Dimension.MASS: {"kg": "kg", "lb": "lb"},
    Dimension.RUNNING_LOAD: {"kg": "kg/m", "lb": "lb/ft"},
    Dimension.AREA_LOAD: {"kg": "kg/m2", "lb": "lb/ft2"},
}
"""By dimension, the unit that goes with a station's unit of mass."""


def figure_text(figure: Figure, unit: str) -> str:
    """The figure rounded to the safe side; a mass, or a mass per length or area, in the station's unit first,
    the other one behind it. Each is converted from the number as it was written.
    """
    number = figure.number
    if number is None or figure.count is not None or number.dimension not in _IN_BOTH:
        return figure.shown
    symbols = _IN_BOTH[number.dimension]
    mine, other = (number.to(symbols[one]) for one in (unit, "lb" if unit == "kg" else "kg"))
    cut = [one.up(figure.decimals) if figure.demand else one.down(figure.decimals) for one in (mine, other)]
    first, second = (text.replace(" ", "\N{NO-BREAK SPACE}") for text in cut)
    return f"{first} ({second})"
