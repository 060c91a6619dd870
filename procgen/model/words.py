"""The closed word lists of a description. Each word is in the glossary (docs/glossary.md)."""

from enum import StrEnum


class Travel(StrEnum):
    """A direction of travel of a unit: in from the door, out to it, forward or aft along a lane."""

    IN = "in"
    OUT = "out"
    FORWARD = "forward"
    AFT = "aft"

    @property
    def opposite(self) -> "Travel":
        """The way back."""
        return _OPPOSITE[self]


_OPPOSITE = {
    Travel.IN: Travel.OUT,
    Travel.OUT: Travel.IN,
    Travel.FORWARD: Travel.AFT,
    Travel.AFT: Travel.FORWARD,
}


class LoadDirection(StrEnum):
    """A direction in which a unit pushes on its restraints in flight."""

    FORWARD = "forward"
    AFT = "aft"
    LEFT = "left"
    RIGHT = "right"
    UP = "up"


class Side(StrEnum):
    """A side of the aircraft, looking forward."""

    LEFT = "left"
    RIGHT = "right"


class Looker(StrEnum):
    """Who looks at the latch of a door that was closed: whoever closed it, and somebody else."""

    CLOSER = "closer"
    SECOND = "second-person"


class RestraintKind(StrEnum):
    """What a restraint is called in the trade."""

    LATCH = "latch"
    LOCK = "lock"
    GUIDE = "guide"
    RAIL = "rail"
    STOP = "stop"
    NET = "net"


class RestraintState(StrEnum):
    """Up or down; for a net: fitted or removed."""

    RAISED = "raised"
    LOWERED = "lowered"


class Stand(StrEnum):
    """Where the person stands who works an item."""

    OUTSIDE = "outside"
    INSIDE = "inside"


class ControlKind(StrEnum):
    """What a control is called in the trade."""

    SWITCH = "switch"
    STICK = "stick"
    HANDLE = "handle"
    BUTTON = "button"
    LEVER = "lever"


class RatingKind(StrEnum):
    """Limit or ultimate; load factors and ratings of one hold must be of one kind."""

    LIMIT = "limit"
    ULTIMATE = "ultimate"


class Operation(StrEnum):
    """What a procedure is for."""

    LOADING = "loading"
    UNLOADING = "unloading"


class SectionName(StrEnum):
    """The parts of a procedure, in this order."""

    BEFORE_YOU_START = "before-you-start"
    PREPARE = "prepare"
    MOVE_UNITS = "move-units"
    SECURE_AND_CLOSE = "secure-and-close"


class SignalWord(StrEnum):
    """Injury, damage, help."""

    WARNING = "warning"
    CAUTION = "caution"
    NOTE = "note"


class Failure(StrEnum):
    """How an item is out of service.

    A drive, a control or the power is `dead`. A restraint is stuck `down` (a net: cannot be fitted), stuck
    `up` (a net: cannot be removed) or `missing`.
    """

    DEAD = "dead"
    DOWN = "down"
    UP = "up"
    MISSING = "missing"


OUTSIDE = "outside"
"""The loader platform at a door, known in every hold without being named."""
POWER = "power"
"""The power of a hold among what can be out of service."""
