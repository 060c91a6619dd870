"""A procedure in words, ready to be laid out. Text carries `**...**` around an item's painted name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import Place
from procgen.model.effectivity import Effectivity
from procgen.model.hold import Hold
from procgen.model.loads import Contour
from procgen.model.station import Aircraft, Station
from procgen.model.step import Step
from procgen.model.unit import UnitType
from procgen.model.words import Failure, Operation, SignalWord
from procgen.results.figures import FigureTable
from procgen.results.hold_tables import HoldTables
from procgen.results.limits import LimitTable
from procgen.results.matrix import Answer
from procgen.results.recovery import Mishap, Outcome
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class PageWarning:
    """A warning or caution in words, by the name of its hazard."""

    name: str
    signal: SignalWord
    title: str
    hazard: str
    consequence: str
    avoid: str


@dataclass(frozen=True, slots=True)
class PageStep:
    """One step in words.

    `number` runs through the whole page from 1; `index` is the step's place in the procedure's steps
    (for its state in the trace). `done_when` is a whole sentence ("Done when it lies flat."); `if_not` says
    what to do then, without the condition ("Do not load it."), to be shown behind words such as "If not:".
    `then` is what follows once it is done ("Then come out.").
    `warnings` stand right before it; `marks` names the warnings that apply to it and stand at the head of
    the page or of its section: of its own block, or of the first `cycle` block. `who` does it: loader,
    operator, supervisor; empty where the data do not say. `cause` is the place in the data it was derived
    from. `step` is the step that the words say: two pages are compared by it.
    """

    number: int
    index: int
    text: str
    why: str = ""
    done_when: str = ""
    if_not: str = ""
    then: str = ""
    who: str = ""
    warnings: tuple[PageWarning, ...] = ()
    marks: tuple[str, ...] = ()
    cause: Place | None = field(default=None, compare=False)
    step: Step | None = None


@dataclass(frozen=True, slots=True)
class PageBlock:
    """A part of the page with a clear stopping point; `letter` is A, B, C ...

    `kind` is `before-you-start`, `prepare`, `cycle` (one unit; `unit` and `bay` say which) or
    `secure-and-close`. `intro` says what the block is for, in one line.
    """

    letter: str
    kind: str
    title: str
    intro: str
    warnings: tuple[PageWarning, ...]
    steps: tuple[PageStep, ...]
    unit: str = ""
    bay: str = ""


@dataclass(frozen=True, slots=True)
class PageTurn:
    """One block of a fold: its letter, its bay, its steps' first and last numbers, its names by label."""

    letter: str
    bay: str
    first: int
    last: int
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PageFold:
    """Blocks that stand side by side and differ only in names, as one cycle with a table.

    In `intro` and in the words of `steps`, `[[n]]` stands for the name under `labels[n]`, and `[[^n]]` for
    the same at the start of a sentence. The steps are those of the first turn.
    """

    title: str
    labels: tuple[str, ...]
    turns: tuple[PageTurn, ...]
    intro: str
    warnings: tuple[PageWarning, ...]
    steps: tuple[PageStep, ...]


@dataclass(frozen=True, slots=True)
class ProcedurePage:
    """One operation of one hold in words. `warnings` apply to the whole page and stand at its head.

    `blocks` are all blocks, step by step; `folds` say some of them shorter, for a list or paper.
    `effectivity` says for which of the aircraft that have the hold it was written; None: for all of them.
    """

    name: str
    title: str
    hold: str
    operation: Operation
    generated: bool
    warnings: tuple[PageWarning, ...]
    blocks: tuple[PageBlock, ...]
    units: tuple[tuple[str, str, str], ...]
    """Unit, unit type, bay: in the order in which they are moved."""
    folds: tuple[PageFold, ...] = ()
    effectivity: Effectivity | None = None


@dataclass(frozen=True, slots=True)
class RecoveryWay:
    """A way out in words, by the numbers of its steps in the guide's table.

    `title` says what it comes to. `stop` are the steps that stop and make safe, `then` those that follow,
    `warnings` the numbers of the warnings that stand at its head.
    """

    outcome: Outcome
    title: str
    stop: tuple[int, ...] = ()
    then: tuple[int, ...] = ()
    warnings: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class RecoveryCase:
    """A mishap at steps `first` to `last` of the page, and the number of the way out.

    `places` says where the unit stands: in a place, or between two; several where the way is the same.
    `until` is the number of the step to be done first, 0 where none is. `why` are the numbers of the reasons
    why there is no way.
    """

    mishap: Mishap
    first: int
    last: int
    way: int
    places: tuple[tuple[str, ...], ...] = ()
    until: int = 0
    why: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class RecoveryGuide:
    """What to do at every step of one page (`name`) when something goes wrong.

    Steps, warnings and reasons stand once; ways and cases name them by number, from 0.
    """

    name: str
    title: str
    hold: str
    operation: Operation
    warnings: tuple[PageWarning, ...]
    steps: tuple[PageStep, ...]
    ways: tuple[RecoveryWay, ...]
    cases: tuple[RecoveryCase, ...]
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LeftLimit:
    """What a position may still carry of a unit type, and what governs; no `now` where it may carry none."""

    unit_type: str
    was: Quantity
    now: Quantity | None = None
    governs: str = ""


@dataclass(frozen=True, slots=True)
class ItemAnswer:
    """What becomes of some positions in one operation while an item is out of service.

    `answers` is all that is true, the gravest last. `crew` is how many people push or carry where nobody did
    before, else 0. `left_out` and `put_in` are the numbers of the texts that tell the differing steps,
    `reasons` of those that tell why it is not usable, `only_alone` why it cannot be worked with others.
    `procedure` is the number of the short procedure that works it; None where there is none.
    """

    operation: Operation
    positions: tuple[str, ...]
    answers: tuple[Answer, ...]
    crew: int = 0
    left_out: tuple[int, ...] = ()
    put_in: tuple[int, ...] = ()
    limits: tuple[LeftLimit, ...] = ()
    reasons: tuple[int, ...] = ()
    only_alone: tuple[int, ...] = ()
    procedure: int | None = None


@dataclass(frozen=True, slots=True)
class ItemOutOfService:
    """One item out of service in one way; `words` say so."""

    item: str
    failure: Failure
    words: str
    answers: tuple[ItemAnswer, ...]


@dataclass(frozen=True, slots=True)
class ShortBlock:
    """A block of a short procedure, by the numbers of its warnings and steps in the guide's tables."""

    title: str
    intro: str
    warnings: tuple[int, ...]
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ShortProcedure:
    """How to work a hold while an item is out of service; `units` as in `ProcedurePage`."""

    name: str
    title: str
    operation: Operation
    warnings: tuple[int, ...]
    blocks: tuple[ShortBlock, ...]
    units: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class OutOfServiceGuide:
    """The out-of-service matrix of a hold in words; steps, warnings and texts stand once, numbered from 0."""

    items: tuple[ItemOutOfService, ...]
    procedures: tuple[ShortProcedure, ...]
    steps: tuple[PageStep, ...]
    warnings: tuple[PageWarning, ...]
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HoldSite:
    """Everything a site shows of one hold. Diagrams are SVG text, ready to inline.

    `diagrams` maps a page's name to one SVG for each step of that page, by step number, showing the
    state after the step; they need `symbols` once on the page that holds them. `legend` says what the
    symbols mean. `unit_types` are those that the limits were reckoned for. `tables` holds the other limit
    tables; `lines` the line of every place that the hold and its limits name, by
    `procgen.results.hold_tables.place_key`. `aircraft_type` and `contours` are the fleet's data that the
    tables rest on. `recoveries` say for pages, by their name, what to do when something goes wrong half way.
    `out_of_service` says what becomes of every position with any one item out of service.
    """

    hold: Hold
    aircraft: str
    diagram: str
    limits: LimitTable
    pages: tuple[ProcedurePage, ...]
    diagrams: Mapping[str, Mapping[int, str]]
    why_no_page: tuple[str, ...] = ()
    symbols: str = ""
    legend: str = ""
    unit_types: Mapping[str, UnitType] = field(default_factory=dict)
    tables: HoldTables = field(default_factory=HoldTables)
    lines: Mapping[str, int] = field(default_factory=dict, compare=False)
    aircraft_type: Aircraft | None = None
    contours: Mapping[str, Contour] = field(default_factory=dict)
    recoveries: tuple[RecoveryGuide, ...] = ()
    out_of_service: OutOfServiceGuide | None = None


@dataclass(frozen=True, slots=True)
class AircraftSite:
    """How one aircraft stands on its wheels while its holds are worked at a station.

    `chart` is SVG text, ready to inline; `table` says the same in numbers, `lines` as in `HoldSite`. There
    is one for each sequence: `name` tells them apart, and is plain and hyphenated. `verdict` says what
    follows for those who work the holds; `matters` that it is not all one to them: another order would not
    do, or a tail stand is needed. `registrations` are the aircraft that it is for; none where it is for all.
    """

    name: str
    title: str
    chart: str
    table: FigureTable
    lines: Mapping[str, int] = field(default_factory=dict, compare=False)
    verdict: str = ""
    matters: bool = False
    registrations: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StationSite:
    """Everything one station's site shows."""

    airline: str
    station: Station
    holds: tuple[HoldSite, ...]
    aircraft: tuple[AircraftSite, ...] = ()
