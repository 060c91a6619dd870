"""Tables of figures as text and JSON: every figure with what governs it and what else there is."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.report.json_text import json_text
from procgen.report.limit_tables import exact
from procgen.report.places import Documents, place_data, shown_place
from procgen.results.figures import Figure, FigureTable, Other


def figures_text(
    head: str,
    tables: Sequence[FigureTable],
    documents: Documents | None = None,
    *,
    root: str = "",
    why: bool = False,
) -> str:
    """Tables to read in a terminal, limits rounded down and demands up; with `why`, each figure with its
    reckoning, the other candidates and the places of its numbers.
    """
    blocks = [_table(table, documents or {}, root, why) for table in tables]
    return "\n\n".join([head, *("\n".join(block) for block in blocks)])


def figures_json(
    head: str, tables: Sequence[FigureTable], documents: Documents | None = None, *, root: str = ""
) -> str:
    """`of` (hold or aircraft), `met`, and `tables`: `name`, `title`, `heads`, `columns`, `rows`, `remarks`.

    A row has `labels`, `figures`, `sources`, `places`. A figure has `shown` (as in the text), `value` and
    `unit` (exact; null where there is no number), `rounded` (`up` or `down`), `governs`, `reckoning`,
    `reasons`, `met` (null where nothing is asked), `sources`, `places`, and `others`, each with
    `title`, `value`, `reckoning`, `sources`, `places`.
    """
    found = [table_data(table, documents or {}, root) for table in tables]
    return json_text({"of": head, "met": all(table.met for table in tables), "tables": found})


def table_data(table: FigureTable, documents: Documents, root: str) -> dict[str, object]:
    """A table in JSON, as `figures_json` says."""
    return {
        "name": table.name,
        "title": table.title,
        "heads": list(table.heads),
        "columns": list(table.columns),
        "rows": [
            {
                "labels": list(row.labels),
                "figures": [_figure_data(figure, documents, root) for figure in row.figures],
                "sources": [str(source) for source in row.sources],
                "places": [place_data(place, documents, root) for place in row.places],
            }
            for row in table.rows
        ],
        "remarks": list(table.remarks),
    }


def _figure_data(figure: Figure, documents: Documents, root: str) -> dict[str, object]:
    number = figure.number
    return {
        "shown": figure.shown,
        "value": exact(number.value) if number is not None else figure.count,
        "unit": number.unit.symbol if number is not None else figure.counted,
        "rounded": "up" if figure.demand else "down",
        "governs": figure.governs,
        "reckoning": figure.reckoning,
        "others": [_other_data(other, documents, root) for other in figure.others],
        "reasons": list(figure.reasons),
        "met": figure.met,
        "sources": [str(source) for source in figure.sources],
        "places": [place_data(place, documents, root) for place in figure.places],
    }


def _other_data(other: Other, documents: Documents, root: str) -> dict[str, object]:
    return {
        "title": other.title,
        "value": other.value,
        "reckoning": other.reckoning,
        "sources": [str(source) for source in other.sources],
        "places": [place_data(place, documents, root) for place in other.places],
    }


def _table(table: FigureTable, documents: Documents, root: str, why: bool) -> list[str]:
    lines = [table.title]
    if table.rows:
        cells = [[*row.labels, *(_cell(figure) for figure in row.figures)] for row in table.rows]
        grid = [[*table.heads, *table.columns], *cells]
        widths = [max(len(line[index]) for line in grid) for index in range(len(grid[0]))]
        first = len(table.heads)
        printed = [
            "  "
            + "  ".join(
                text.ljust(width) if index < first else text.rjust(width)
                for index, (text, width) in enumerate(zip(line, widths, strict=True))
            ).rstrip()
            for line in grid
        ]
        lines.append(printed[0])
        for row, line in zip(table.rows, printed[1:], strict=True):
            lines.append(line)
            if why:
                lines += _whys(table, row.figures, documents, root)
            sources = f"      [{', '.join(map(str, row.sources))}]" if row.sources else ""
            lines += [sources] if sources else []
    reasons = dict.fromkeys(
        reason for row in table.rows for figure in row.figures for reason in figure.reasons
    )
    lines += [f"  –: {reason}" for reason in reasons]
    return [*lines, *(f"  {remark}" for remark in table.remarks)]


def _cell(figure: Figure) -> str:
    return figure.shown if figure.met is not False else f"{figure.shown} NOT MET"


def _whys(table: FigureTable, figures: Sequence[Figure], documents: Documents, root: str) -> list[str]:
    lines = []
    for column, figure in zip(table.columns, figures, strict=True):
        governs = f"{figure.governs}: " if figure.governs else ""
        words = governs + (figure.reckoning or "; ".join(figure.reasons))
        if not words and not figure.others:
            continue
        sources = f" [{', '.join(map(str, figure.sources))}]" if figure.sources else ""
        lines.append(f"      {column}: {words}{sources}")
        lines += [
            f"        else {other.title}: {other.value}"
            + (f" ({other.reckoning})" if other.reckoning else "")
            for other in figure.others
        ]
        places = dict.fromkeys(shown_place(place, documents, root) for place in figure.places)
        lines += [f"        {place}" for place in places if place]
    return lines
