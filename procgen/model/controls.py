"""What works a powered hold: controls, the panels over them, the power and its drives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place
from procgen.model.words import ControlKind, RestraintState, Stand, Travel
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Control:
    """Something a person works: its positions (the first is its rest), the panel it is behind.

    `hold_to_run`: it must be held and springs to rest when let go. `returns_when_clear`: it is held too,
    and goes back by itself when the unit is clear. Otherwise it stays where it is set.
    """

    name: str
    title: str
    kind: ControlKind
    positions: tuple[str, ...]
    hold_to_run: bool = False
    returns_when_clear: bool = False
    behind: str | None = None
    at: Stand = Stand.OUTSIDE
    place: Place = field(default=NOWHERE, compare=False)

    @property
    def rest(self) -> str:
        """The position it has when nobody works it."""
        return self.positions[0]

    @property
    def is_held(self) -> bool:
        """Whether it is worked by holding it, and cannot be set and left."""
        return self.hold_to_run or self.returns_when_clear


@dataclass(frozen=True, slots=True)
class Panel:
    """An access door over controls; must be closed at the end. `behind` is the panel over itself."""

    name: str
    title: str
    at: Stand = Stand.OUTSIDE
    place: Place = field(default=NOWHERE, compare=False)
    behind: str | None = None


@dataclass(frozen=True, slots=True)
class Power:
    """The power switch and its interlocks.

    Power is on while `switch` stands in `on` and every item of `needs` is in its state.
    `interlock_moves_while_on`: whether an interlock item may be moved while the switch is on.
    """

    switch: str
    on: str
    off: str
    needs: Mapping[str, RestraintState]
    interlock_moves_while_on: bool = True
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Drive:
    """Powered rollers: the bays they lie in, and for each direction the control position that runs them."""

    name: str
    title: str
    under: tuple[str, ...]
    run_by: str
    go: Mapping[Travel, str]
    speed: Quantity | None = None
    pull: Quantity | None = None
    place: Place = field(default=NOWHERE, compare=False)
