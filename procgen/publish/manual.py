"""The writer's manual: a plain Markdown tree and a plain builder's file for a station."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from jinja2 import Environment

from procgen.diagnostics import ProcgenError
from procgen.publish.applies import applies, choices, marks_of, narrowed
from procgen.publish.bar_places import (
    hold_bars,
    limits_bars,
    loads_bars,
    matrix_bars,
    procedure_bars,
    station_bars,
)
from procgen.publish.bars import EditionBars, bars_of
from procgen.publish.card import card, named_warnings, unit_rows
from procgen.publish.changes import ShownChanges, changes_file, changes_shown
from procgen.publish.control import as_edition, control_of
from procgen.publish.equipment import (
    control_rows,
    door_rows,
    drive_rows,
    held_by,
    power_words,
    restraint_rows,
)
from procgen.publish.figure_rows import shown_table
from procgen.publish.folds import parts
from procgen.publish.hold_order import order_words
from procgen.publish.limit_rows import OPERATION_WORDS, accepted, refused
from procgen.publish.limits_page import limits_shown
from procgen.publish.navigation import builder_file, navigation, sheets
from procgen.publish.out_of_service import matrix_shown
from procgen.publish.recoveries import ShownGuide, guide_for
from procgen.publish.rendering import environment, source
from procgen.publish.short_procedures import procedures_shown
from procgen.publish.stable import stable_pages
from procgen.publish.together import together
from procgen.publish.words import DEMONSTRATION, PREVAIL, STOP, closing
from procgen.results.edition import Edition
from procgen.results.page import HoldSite, ProcedurePage, StationSite


def station_tree(
    shown: StationSite | Edition, templates: Mapping[str, str], address: str = ""
) -> Mapping[str, str]:
    """A revision of a station's manual as text by path: `mkdocs.yml`, pages and cards under `docs/`.

    A site that comes without its edition is shown as a draft.

    `address` is where the home page is found by everybody, for the codes on printed cards.

    Raises `ProcgenError` when two of its procedures have one name.
    """
    env = environment(templates)
    edition = as_edition(shown)
    site = edition.site
    station = site.station
    bars = bars_of(edition)
    _refuse_twins(site)
    local = [page for hold in site.holds for page in hold.pages if not page.generated]
    aircraft = [(one, shown_table(one, one.table, station.mass_unit)) for one in site.aircraft]
    front = _page(
        env,
        "station.md",
        edition,
        "index.html",
        holds=site.holds,
        marked_for=_marked_for(site),
        narrowed={hold.hold.name: narrowed(hold) for hold in site.holds},
        local_pages=local,
        aircraft=aircraft,
        **station_bars(bars),
    )
    tree = {
        "docs/index.md": front,
        "docs/revisions.md": _page(env, "revisions.md", edition, "revisions.html"),
        "docs/signal-words.md": _page(env, "signal-words.md", edition, "signal-words.html"),
    }
    tree.update(_changes_pages(env, edition))
    for hold in site.holds:
        name = hold.hold.name
        tree[f"docs/holds/{name}.md"] = _hold_page(env, edition, hold, bars)
        limits = limits_shown(site, hold)
        changed = {"limits": limits_bars(bars, hold, station.mass_unit), "loads": loads_bars(bars, hold)}
        for kind, marked in changed.items():
            said = {**limits, **marked, "applies": applies(site, hold, kind)}
            tree[f"docs/{kind}/{name}.md"] = _page(env, f"{kind}.md", edition, f"{kind}/{name}.html", **said)
        for page in hold.pages:
            tree[f"docs/procedures/{page.name}.md"] = _procedure_page(env, edition, hold, page, bars)
            tree[f"docs/cards/{page.name}.html"] = card(edition, hold, page, env, address)
            guide = guide_for(hold, page)
            if guide is not None:
                tree[f"docs/recovery/{page.name}.md"] = _recovery_page(env, edition, hold, page, guide)
        tree.update(_out_of_service_pages(env, edition, hold, bars))
    tree.update(stable_pages(env, edition, tuple(tree)))
    tree.update(sheets(env))
    control = control_of(edition, "index.html")
    standing = f" {control.mark}" if control.mark else ""
    footer = f"{station.code}. {control.revision}.{standing} {closing(station.demonstration)}"
    tree["mkdocs.yml"] = builder_file(f"{station.code} {station.title}", footer, navigation(edition))
    return tree


def _marked_for(site: StationSite) -> Mapping[str, tuple[Sequence[str], str]]:
    """By hold: the registrations it is shown for when one is picked, and the same in words."""
    every = choices(site)
    return {
        hold.hold.name: ([one.registration for one in every if hold.hold.name in one.holds], marks_of(hold))
        for hold in site.holds
    }


def _refuse_twins(site: StationSite) -> None:
    """Two procedures of one name would be one page: the second would hide the first."""
    names = Counter(page.name for hold in site.holds for page in hold.pages)
    twins = [name for name, count in names.items() if count > 1]
    if twins:
        raise ProcgenError(
            f"station {site.station.code} has two procedures called {twins[0]}: rename the hand-written one"
        )


def _page(env: Environment, template: str, edition: Edition, file: str, **more: object) -> str:
    """Fill a template with what every page of a station shows, and with its own."""
    of = edition.site
    common: dict[str, object] = {
        "edition": edition,
        "control": control_of(edition, file),
        "control_script": source(env, "control.js"),
        "airline": of.airline,
        "station": of.station,
        "demonstration": of.station.demonstration,
        "demonstration_words": DEMONSTRATION,
        "prevail": PREVAIL,
        "stop": STOP,
        "effectivity_script": source(env, "effectivity.js"),
        "choices": choices(of),
        "every_mark": [one.registration for one in choices(of)],
    }
    return env.get_template(template).render({**common, **more})


def _hold_page(env: Environment, edition: Edition, hold: HoldSite, bars: EditionBars) -> str:
    site = edition.site
    return _page(
        env,
        "hold.md",
        edition,
        f"holds/{hold.hold.name}.html",
        demonstration=site.station.demonstration or hold.hold.demonstration,
        site=hold,
        hold=hold.hold,
        restraints=restraint_rows(hold.hold),
        held_by=held_by(hold.hold),
        controls=control_rows(hold.hold),
        drives=drive_rows(hold.hold),
        power=power_words(hold.hold),
        applies=applies(site, hold, "holds"),
        narrowed=narrowed(hold),
        doors=door_rows(hold.hold),
        rows=accepted(hold, site.station.mass_unit),
        refusals=refused(hold),
        zones=together(hold, site.station.mass_unit),
        **hold_bars(bars, hold),
    )


def _procedure_page(
    env: Environment, edition: Edition, hold: HoldSite, page: ProcedurePage, bars: EditionBars
) -> str:
    site = edition.site
    return _page(
        env,
        "procedure.md",
        edition,
        f"procedures/{page.name}.html",
        demonstration=site.station.demonstration or hold.hold.demonstration,
        site=hold,
        hold=hold.hold,
        page=page,
        parts=parts(page),
        operation=OPERATION_WORDS[page.operation],
        diagrams=hold.diagrams.get(page.name, {}),
        named_warnings=named_warnings(page),
        units=unit_rows(hold, page, site.station.mass_unit),
        order=order_words(site, hold, page),
        guided=guide_for(hold, page) is not None,
        applies=applies(site, hold, "procedures", page),
        **procedure_bars(bars, hold, page),
    )


def _recovery_page(
    env: Environment, edition: Edition, hold: HoldSite, page: ProcedurePage, guide: ShownGuide
) -> str:
    return _page(
        env,
        "recovery.md",
        edition,
        f"recovery/{page.name}.html",
        demonstration=edition.site.station.demonstration or hold.hold.demonstration,
        site=hold,
        hold=hold.hold,
        page=page,
        guide=guide,
        folds_script=source(env, "folds.js"),
        bars=bars_of(edition).procedure(page.name),
        applies=applies(edition.site, hold, "recovery", page),
    )


def _changes_pages(env: Environment, edition: Edition) -> Mapping[str, str]:
    """What changed since the revision before, and since each one before that where it is shown."""
    others = [(one.since, f"{changes_file(edition, one.since)}.html") for one in edition.changes]
    pages: dict[str, str] = {}
    every: list[ShownChanges | None] = [changes_shown(edition, one) for one in edition.changes]
    for shown in every or [None]:
        file = shown.file if shown else "changes"
        more = {"shown": shown, "others": others, "copy_script": source(env, "comparison.js")}
        pages[f"docs/{file}.md"] = _page(env, "changes.md", edition, f"{file}.html", **more)
    return pages


def _out_of_service_pages(
    env: Environment, edition: Edition, hold: HoldSite, bars: EditionBars
) -> Mapping[str, str]:
    """The matrix of a hold and its short procedures; none in releases from before there were any.

    The short procedures are complete files that the builder only copies: there are many.
    """
    site, folder = edition.site, f"out-of-service/{hold.hold.name}"
    matrix = matrix_shown(hold, site.station.mass_unit)
    if matrix is None:
        return {}
    common = {
        "demonstration": site.station.demonstration or hold.hold.demonstration,
        "site": hold,
        "hold": hold.hold,
        "applies": applies(site, hold, "out-of-service"),
    }
    more = {**common, **matrix_bars(bars, hold)}
    pages = {
        f"docs/{folder}.md": _page(env, "out-of-service.md", edition, f"{folder}.html", matrix=matrix, **more)
    }
    common["applies"] = applies(site, hold, "../holds")
    for short in procedures_shown(hold):
        file = f"{folder}/{short.name}.html"
        pages[f"docs/{file}"] = _page(env, "short.html", edition, file, procedure=short, **common)
    return pages
