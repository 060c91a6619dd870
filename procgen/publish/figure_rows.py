"""Tables of reckoned figures in words: a row per labels, a cell per column, a reason behind every cell."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.model.stated import SourceRef
from procgen.publish.reasons import Lined, Why, where
from procgen.publish.words import both
from procgen.results.figures import Figure, FigureRow, FigureTable
from procgen.units import Dimension, Quantity


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


def figure_text(figure: Figure, unit: str) -> str:
    """The figure rounded to the safe side; a mass in the station's unit first, the other one behind it."""
    number = figure.number
    if number is None or figure.count is not None or number.dimension is not Dimension.MASS:
        return figure.shown
    return both_up(number, unit, figure.decimals) if figure.demand else both(number, unit, figure.decimals)


def both_up(quantity: Quantity, unit: str, decimals: int = 0) -> str:
    """A demand in the station's unit and in the other one behind it; each rounded up on its own."""
    other = "lb" if unit == "kg" else "kg"
    one, two = (
        quantity.to(symbol).up(decimals).replace(" ", "\N{NO-BREAK SPACE}") for symbol in (unit, other)
    )
    return f"{one} ({two})"
