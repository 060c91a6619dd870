"""The markup of charts: one element a line."""

from __future__ import annotations

from html import escape

from procgen.draw.chart import Chart, Stroke
from procgen.draw.view import number

SYMBOLS = {
    "met": '<circle class="pg-dot" cx="0" cy="0" r="3.2"/>',
    "broken": '<path class="pg-cross" d="M-4-4 4 4M-4 4 4-4"/>',
}
"""The marks of charts: a full dot where a limit is kept, a cross where it is not."""


def chart_markup(chart: Chart) -> str:
    """A chart as one SVG, complete in itself."""
    sheet = f"0 0 {number(chart.width)} {number(chart.height)}"
    lines = [
        f'<svg class="pg-view pg-chart" viewBox="{sheet}" role="img">',
        f"<title>{escape(chart.title)}</title>",
        f"<desc>{escape(chart.told)}</desc>",
        *(_stroke(stroke) for stroke in chart.strokes),
        *(
            f'<g transform="translate({number(mark.u)} {number(mark.v)})">{SYMBOLS[mark.name]}</g>'
            for mark in chart.marks
        ),
    ]
    for text in chart.texts:
        css = f' class="{text.css}"' if text.css else ""
        lines.append(f'<text{css} x="{number(text.u)}" y="{number(text.v)}">{escape(text.words)}</text>')
    return "\n".join([*lines, "</svg>"])


def _stroke(stroke: Stroke) -> str:
    points = "L".join(f"{number(u)} {number(v)}" for u, v in stroke.points)
    return f'<path class="{stroke.css}" d="M{points}{"Z" if stroke.closed else ""}"/>'
