"""Where the symbols of restraints stand: spread along their edges, none on another."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.draw.edges import Edge, Standing
from procgen.draw.frame import Box, around
from procgen.draw.symbols import GLYPH_HEIGHT, GLYPH_WIDTH


def spots_of(standing: Mapping[str, Standing]) -> dict[str, Box]:
    """Spread the symbols along their edges, and move any that would still lie on another."""
    by_edge: dict[tuple[str, ...], list[tuple[float, int, str]]] = {}
    for order, (name, where) in enumerate(standing.items()):
        by_edge.setdefault(where.edge.key, []).append(
            (where.wish, -order if where.wish > 0.5 else order, name)
        )
    placed: dict[str, Box] = {}
    for members in by_edge.values():
        members.sort()
        edge = standing[members[0][2]].edge
        size = GLYPH_WIDTH if edge.horizontal else GLYPH_HEIGHT
        in_row = max(1, min(len(members), int((edge.length + 2) // (size + 1))))
        for index, (_, _, name) in enumerate(members):
            row, slot = divmod(index, in_row)
            count = min(in_row, len(members) - row * in_row)
            u, v = edge.at((slot + 0.5) / count)
            away = row * (GLYPH_HEIGHT + 1) * (1 if row % 2 else -1)
            u, v = (u, v + away) if edge.horizontal else (u + away, v)
            placed[name] = _free_place(u, v, edge, placed)
    return {name: placed[name] for name in standing}


def _free_place(u: float, v: float, edge: Edge, placed: Mapping[str, Box]) -> Box:
    """The nearest place along the edge, then off it, that no symbol has taken."""
    for off in range(0, 40):
        for along in range(0, 120, 2):
            for sign in (1, -1):
                du, dv = (along * sign, off * 4) if edge.horizontal else (off * 4, along * sign)
                box = around(u + du, v + dv, GLYPH_WIDTH, GLYPH_HEIGHT)
                if not any(box.overlaps(other) for other in placed.values()):
                    return box
    return around(u, v, GLYPH_WIDTH, GLYPH_HEIGHT)
