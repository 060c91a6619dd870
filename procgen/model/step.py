"""Steps: one action each, an imperative verb and its object. The same form for plans and authors."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import NOWHERE, Place
from procgen.model.effectivity import Effectivity
from procgen.model.words import Failure, Looker, Operation, RestraintState, SectionName


@dataclass(frozen=True, slots=True)
class Section:
    """Not an action: the head of a part of the procedure."""

    name: SectionName
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Warn:
    """A warning or caution by the name of its hazard; `signal` is the word it was written under."""

    signal: str
    hazard: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Open:
    """Open a door or panel."""

    target: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Close:
    """Close a door or panel."""

    target: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class SetControl:
    """Set a control that stays where it is put."""

    control: str
    position: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Raise:
    """Raise a restraint by hand."""

    item: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Lower:
    """Lower a restraint by hand."""

    item: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Fit:
    """Fit a net."""

    item: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Remove:
    """Remove a net."""

    item: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Present:
    """Bring a unit to the sill of a door, outside; `door` is named where the hold has several."""

    unit: str
    door: str | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Drive:
    """Move a unit under power: the controls held meanwhile, the places passed, first to last."""

    unit: str
    hold: Mapping[str, str]
    through: tuple[str, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Push:
    """Move a unit by hand: how many people, the controls held meanwhile, the places passed.

    With `gear` it is pulled with that, from the platform; the step form then has the verb `pull`.
    """

    unit: str
    crew: int
    through: tuple[str, ...]
    hold: Mapping[str, str] = field(default_factory=dict)
    place: Place = field(default=NOWHERE, compare=False)
    gear: str | None = None


@dataclass(frozen=True, slots=True)
class Stow:
    """Carry a loose load by hand into a bulk section, or out of it: how many people, the places passed."""

    unit: str
    crew: int
    through: tuple[str, ...]
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Check:
    """Make a named check; for one unit where the check is made for each."""

    condition: str
    unit: str | None = None
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class CheckItems:
    """Look that restraints stand as they must."""

    items: tuple[str, ...]
    state: RestraintState
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class CheckLatch:
    """Look that a door which was closed is latched; `by` says who looks."""

    door: str
    by: Looker
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Report:
    """Report something, by the name of the report."""

    what: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Note:
    """A remark in words; no action."""

    text: str
    place: Place = field(default=NOWHERE, compare=False)


Step = (
    Section
    | Warn
    | Open
    | Close
    | SetControl
    | Raise
    | Lower
    | Fit
    | Remove
    | Present
    | Drive
    | Push
    | Stow
    | Check
    | CheckItems
    | CheckLatch
    | Report
    | Note
)
"""Every kind of step."""


@dataclass(frozen=True, slots=True)
class PlannedUnit:
    """A unit that a procedure moves: its type and the bay it goes to (loading) or comes from."""

    name: str
    unit_type: str
    bay: str
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class OutOfService:
    """An item that does not work: a restraint, drive or control by its name, or `power`; and how."""

    item: str
    failure: Failure
    place: Place = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Procedure:
    """Steps for one hold and operation, written by hand or generated.

    `units` are those moved, in the order they are named; `aboard` are units that stay where they are. Those
    of them in `put_back` come out meanwhile, because others could not pass, and end where they stood.
    `name` is the file's own for an authored procedure, HOLD-operation for a generated one.
    `out_of_service` is what does not work while it is carried out; `jammed` names units that cannot be moved
    from where they stand. `effectivity` says which of the aircraft that have the hold it is for; None: all.
    """

    name: str
    hold: str
    operation: Operation
    units: Mapping[str, PlannedUnit]
    steps: tuple[Step, ...]
    aboard: Mapping[str, PlannedUnit] = field(default_factory=dict)
    title: str = ""
    generated: bool = False
    place: Place = field(default=NOWHERE, compare=False)
    out_of_service: tuple[OutOfService, ...] = ()
    put_back: tuple[str, ...] = ()
    jammed: tuple[str, ...] = ()
    effectivity: Effectivity | None = None
