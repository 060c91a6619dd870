"""Can a rectangle be moved and turned through a door? Answered by trying: a search over a grid of places.

Nothing of the engine's reasoning is in here. The rectangle is a polygon, the walls are boxes, a place is free
where they do not overlap (separating axes), and from place to neighbouring place it goes on until it lies
along the hold or no new place is found.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

_MOVES = [move for move in product((-1, 0, 1), repeat=3) if any(move)]


@dataclass(frozen=True)
class Room:
    """Door from x = 0 to `door`, wall from y = -`wall` to 0, hold from y = 0 to `depth` and from x =
    -`behind` to `ahead`.
    """

    door: float
    wall: float
    depth: float
    behind: float
    ahead: float

    def boxes(self) -> list[tuple[float, float, float, float]]:
        """Everything solid, as (x from, x to, y from, y to)."""
        far, wall = 100.0, max(self.wall, 1e-6)
        return [
            (-far, 0.0, -wall, 0.0),
            (self.door, far, -wall, 0.0),
            (-far, far, self.depth, far),
            (-far, -self.behind, 0.0, far),
            (self.ahead, far, 0.0, far),
        ]


def can_be_turned(room: Room, length: float, width: float, step: float, turns: int) -> bool:
    """Whether it gets from upright before the door to lying along the hold, on a grid of `step` and with
    `turns` angles between.
    """
    boxes = room.boxes()
    start = (round(room.door / 2 / step), -math.ceil((room.wall + length / 2) / step) - 1, 0)
    lowest = start[1]
    seen, stack = {start}, [start]
    while stack:
        i, j, k = stack.pop()
        if k == turns and j * step - width / 2 >= 0:
            return True
        for di, dj, dk in _MOVES:
            place = (i + di, j + dj, k + dk)
            if place in seen or not (0 <= place[2] <= turns and place[1] >= lowest):
                continue
            if not -length <= place[0] * step <= room.door + length:
                continue
            seen.add(place)
            angle = math.pi / 2 * (1 - place[2] / turns)
            if _free(boxes, place[0] * step, place[1] * step, angle, length / 2, width / 2):
                stack.append(place)
    return False


def _free(
    boxes: list[tuple[float, float, float, float]], x: float, y: float, angle: float, a: float, b: float
) -> bool:
    c, s = math.cos(angle), math.sin(angle)
    half_x, half_y = a * c + b * s, a * s + b * c
    for left, right, low, high in boxes:
        if x + half_x <= left or x - half_x >= right or y + half_y <= low or y - half_y >= high:
            continue
        # the box's corners on the piece's own axes
        apart = False
        for ux, uy, half in ((c, s, a), (-s, c, b)):
            spots = [(px - x) * ux + (py - y) * uy for px in (left, right) for py in (low, high)]
            if min(spots) >= half or max(spots) <= -half:
                apart = True
                break
        if not apart:
            return False
    return True
