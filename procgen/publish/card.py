"""The loader's phone card: one complete HTML file for one operation of one hold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from jinja2 import Environment

from procgen.publish.address import card_address, square_code
from procgen.publish.applies import applies, choices
from procgen.publish.bar_places import card_bars
from procgen.publish.bars import bars_of
from procgen.publish.control import as_edition, control_of
from procgen.publish.folds import parts
from procgen.publish.hold_order import order_words
from procgen.publish.limit_rows import OPERATION_WORDS, accepted, alike, exact_limits, limit_of, refused
from procgen.publish.out_of_service import items_shown
from procgen.publish.recoveries import guide_for
from procgen.publish.rendering import source
from procgen.publish.together import together
from procgen.publish.touched import touched
from procgen.publish.words import DEMONSTRATION, PREVAIL, STOP
from procgen.results.edition import Edition
from procgen.results.page import HoldSite, PageWarning, ProcedurePage, StationSite


@dataclass(frozen=True, slots=True)
class UnitRow:
    """One unit of an operation, in the order in which it moves."""

    bay: str
    unit_type: str
    limit: str


@dataclass(frozen=True, slots=True)
class PaperDiagram:
    """A diagram for paper: the block at whose end the hold stands so, its last step, and the SVG."""

    letter: str
    step: int
    svg: str


def card(
    shown: StationSite | Edition,
    hold: HoldSite,
    page: ProcedurePage,
    environment: Environment,
    address: str = "",
) -> str:
    """The card's HTML. It asks for nothing from anywhere.

    `address` is where the whole site is found; with one, paper shows the card's own address and its code.
    """
    edition = as_edition(shown)
    site = edition.site
    station = site.station
    revision = station.revision
    place = card_address(address, station.code, page.name)
    bars, marked = card_bars(bars_of(edition), hold, page)
    return environment.get_template("card.html").render(
        airline=site.airline,
        control=control_of(edition, f"cards/{page.name}.html"),
        control_script=source(environment, "control.js"),
        station=station,
        hold=hold.hold,
        site=hold,
        page=page,
        parts=parts(page),
        operation=OPERATION_WORDS[page.operation],
        # A place kept under another revision is of no use: its steps may be others.
        place_key=f"procgen:{station.code}:{page.name}:{revision.number}:{revision.date}",
        demonstration=station.demonstration or hold.hold.demonstration,
        demonstration_words=DEMONSTRATION,
        prevail=PREVAIL,
        stop=STOP,
        diagrams=hold.diagrams.get(page.name, {}),
        named_warnings=named_warnings(page),
        units=unit_rows(hold, page, station.mass_unit),
        rows=accepted(hold, station.mass_unit),
        rows_together=alike(accepted(hold, station.mass_unit)),
        refusals=refused(hold),
        zones=together(hold, station.mass_unit),
        positions=list(dict.fromkeys(cell.position for cell in hold.limits.cells)),
        unit_types=_types_first_usable(hold),
        exact=exact_limits(hold, station.mass_unit),
        guide=guide_for(hold, page),
        broken_items=items_shown(hold, station.mass_unit, page.operation),
        touched={step.number: touched(hold, step.step) for block in page.blocks for step in block.steps},
        applies=applies(site, hold, "cards", page),
        every_mark=[one.registration for one in choices(site)],
        effectivity_script=source(environment, "effectivity.js"),
        order=order_words(site, hold, page),
        address=place,
        qr=square_code(place),
        on_paper=_on_paper(page, hold.diagrams.get(page.name, {})),
        styles=source(environment, "diagram.css")
        + _styles(environment, site, hold, page, barred=bool(bars.found)),
        script=source(environment, "card.js"),
        **marked,
    )


def named_warnings(page: ProcedurePage) -> Mapping[str, PageWarning]:
    """The warnings at the heads of blocks, by name: those that steps carry a mark of.

    A warning for the whole page is no mark: every step would carry it, and nobody would read any.
    """
    heads = [warning for block in page.blocks for warning in block.warnings]
    whole = {warning.name for warning in page.warnings}
    return {warning.name: warning for warning in reversed(heads) if warning.name not in whole}


def unit_rows(hold: HoldSite, page: ProcedurePage, unit: str) -> tuple[UnitRow, ...]:
    """The units of a page with the most each may weigh where it goes or stands."""
    return tuple(UnitRow(bay, kind, limit_of(hold, bay, kind, unit)) for _, kind, bay in page.units)


def _types_first_usable(hold: HoldSite) -> list[str]:
    """Every unit type, those that go somewhere in this hold first."""
    usable = {cell.unit_type for cell in hold.limits.cells if cell.governing is not None}
    every = list(dict.fromkeys(cell.unit_type for cell in hold.limits.cells))
    return sorted(every, key=lambda code: (code not in usable, every.index(code)))


def _on_paper(page: ProcedurePage, diagrams: Mapping[int, str]) -> tuple[PaperDiagram, ...]:
    """The diagrams that are printed: how the hold stands where the first block of each kind in it ends."""
    ends = {block.kind: block for block in reversed(page.blocks) if block.steps}
    shown = [block for block in page.blocks if ends.get(block.kind) is block]
    return tuple(
        PaperDiagram(block.letter, block.steps[-1].number, diagrams[block.steps[-1].number])
        for block in shown
        if block.kind != "before-you-start" and block.steps[-1].number in diagrams
    )


def _styles(
    environment: Environment, site: StationSite, hold: HoldSite, page: ProcedurePage, *, barred: bool
) -> str:
    """The card's style sheets; the lines that run on every printed page are filled in.

    Only a card with change bars carries what they look like.
    """
    revision = site.station.revision
    which = f"revision {revision.number}"
    which = f"{which} of {revision.date}" if revision.date else f"draft of {which}"
    running = f"{site.station.code} {hold.hold.name} {OPERATION_WORDS[page.operation]}, {which}"
    sheet = environment.get_template("card.css").render(
        running=_in_css(running), prevail_short=_in_css(PREVAIL)
    )
    sheets = source(environment, "diagram.css") + sheet
    return sheets + source(environment, "card_bars.css") if barred else sheets


def _in_css(text: str) -> str:
    """Text for a string in a style sheet inside HTML: nothing in it can end either."""
    return "".join(c if c.isalnum() or c in " ,.-:" else f"\\{ord(c):x} " for c in text)
