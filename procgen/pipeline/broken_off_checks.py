"""The checks with which work is broken off, by what the hold has: a bulk hold has nothing to let go of."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.model.hold import Hold
from procgen.results.recovery import is_loose

LOOKED_OVER, ENTRY_DONE = "block-looked-over", "entry-done"


@dataclass(frozen=True, slots=True)
class BreakingOff:
    """Names of checks: everything stopped, what is left guarded; looked for what moves, an entry agreed."""

    stopped: str
    guarded: str
    looked_for: str
    agreed: str


_POWERED = BreakingOff("all-stopped", "unit-guarded", "loose-units-looked-for", "entry-agreed")
_BY_HAND = BreakingOff("pushing-stopped", "unit-guarded", "loose-units-looked-for", "entry-agreed-by-hand")
_LOOSE = BreakingOff("stowing-stopped", "door-guarded", "loose-pieces-looked-for", "entry-agreed-with-loads")
_ALL = (_POWERED, _BY_HAND, _LOOSE)

CONDITIONS = frozenset(
    name for one in _ALL for name in (one.stopped, one.guarded, one.looked_for, one.agreed)
) | {LOOKED_OVER, ENTRY_DONE}
"""All of them, in whatever hold."""


def breaking_off(hold: Hold) -> BreakingOff:
    """Those of a hold: one with power or drives, one whose units are pushed, one with loose loads only."""
    if hold.power is not None or hold.drives:
        return _POWERED
    return _LOOSE if is_loose(hold) else _BY_HAND
