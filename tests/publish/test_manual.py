"""The Markdown tree of a station and of the home: what stands on which page."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest
import yaml

from procgen.diagnostics import ProcgenError
from procgen.model.words import Operation
from procgen.publish import home_tree, station_tree
from procgen.publish.folds import parts
from procgen.publish.short_procedures import procedures_shown
from procgen.publish.words import DEMONSTRATION, PREVAIL
from procgen.results.page import StationSite
from tests.publish.sites import hold_site, site, sites, templates


@cache
def tree(code: str = "K1B") -> Mapping[str, str]:
    return station_tree(site(code), templates())


def pages(code: str = "K1B") -> dict[str, str]:
    return {path: text for path, text in tree(code).items() if path.endswith(".md")}


def test_a_station_has_a_page_for_each_hold_and_operation_and_a_card() -> None:
    holds = site("N4T").station.holds
    written = [procedure.name for procedure in site("N4T").station.procedures]
    named = [*(f"{hold}-{operation}" for hold in holds for operation in Operation), *written]
    assert written
    assert sorted(tree("N4T")) == sorted(
        [
            *(f"docs/cards/{name}.html" for name in named),
            *(f"docs/procedures/{name}.md" for name in named),
            *(f"docs/recovery/{name}.md" for name in named),
            *(f"docs/holds/{hold}.md" for hold in holds),
            *(f"docs/limits/{hold}.md" for hold in holds),
            *(f"docs/loads/{hold}.md" for hold in holds),
            *(f"docs/out-of-service/{hold}.md" for hold in holds),
            *(
                f"docs/out-of-service/{hold}/{short.name}.html"
                for hold in holds
                for short in procedures_shown(hold_site("N4T", hold))
            ),
            "docs/assets/short.css",
            "docs/assets/diagram.css",
            "docs/assets/manual.css",
            "docs/changes.md",
            "docs/index.md",
            "docs/revisions.md",
            "docs/signal-words.md",
            "mkdocs.yml",
        ]
    )
    assert "docs/procedures/sr-aft-two-units.md" in tree("K1B")
    assert "docs/procedures/sr-aft-two-units.md" not in tree("N4T")


@pytest.mark.parametrize("code", ["K1B", "N4T"])
def test_every_page_says_what_prevails_and_that_it_is_a_demonstration(code: str) -> None:
    shown = {**pages(code), **{p: t for p, t in home_tree(sites(), templates()).items() if p.endswith(".md")}}
    for path, text in shown.items():
        assert PREVAIL.replace("'", "&#39;") in text, path
        assert DEMONSTRATION in text, path


def test_a_station_that_is_no_demonstration_is_not_marked_as_one() -> None:
    real = site("N4T")
    real = replace(
        real,
        station=replace(real.station, demonstration=False),
        holds=tuple(replace(h, hold=replace(h.hold, demonstration=False)) for h in real.holds),
    )
    assert all(DEMONSTRATION not in text for text in station_tree(real, templates()).values())


def test_every_page_carries_the_revision() -> None:
    revision = site("K1B").station.revision
    for path, text in pages().items():
        if path.startswith(("docs/holds", "docs/procedures", "docs/revisions", "docs/index")):
            assert revision.date in text, path
    footer = yaml.safe_load(tree()["mkdocs.yml"])["copyright"]
    assert f"Revision {revision.number} of {revision.date}" in footer


def test_warnings_stand_before_the_steps_they_are_about() -> None:
    for hold in site("K1B").holds:
        for page in hold.pages:
            text = tree()[f"docs/procedures/{page.name}.md"]
            for part in parts(page):
                block = part.fold or part.blocks[0]
                start = text.index(f"## {', '.join(b.letter for b in part.blocks)} · ")
                for step in block.steps:
                    here = text.index(f'<li id="step-{step.number}"', start)
                    for warning in block.warnings:
                        assert text.index(warning.title, start) < here
                    for warning in step.warnings:
                        words = text.index('<p class="pg-do">', here)
                        assert here < text.index(f"<span>{warning.title}</span>", here) < words
            for warning in page.warnings:
                assert text.index(warning.title) < text.index("## A · ")


def test_steps_are_numbered_through_and_carry_their_words() -> None:
    page = hold_site("K1B", "TR-FWD").pages[0]
    text = tree()[f"docs/procedures/{page.name}.md"]
    steps = [step for block in page.blocks for step in block.steps]
    anchors = re.findall(r'<(?:li|span) id="step-(\d+)"', text)
    assert sorted(anchors, key=int) == [str(step.number) for step in steps]
    said = [step.number for part in parts(page) for step in (part.fold or part.blocks[0]).steps]
    assert re.findall(r'<li id="step-(\d+)"', text) == [str(number) for number in said]
    assert text.count('<figure class="pg-state"') == len(parts(page))
    names = {name for s in steps for name in re.findall(r"\*\*(.+?)\*\*", s.text)}
    assert all(f">{name}</" in text for name in names)


def test_cycles_that_differ_only_in_names_are_said_once_with_a_table() -> None:
    page = next(p for p in hold_site("K1B", "TR-FWD").pages if p.name == "TR-FWD-unloading")
    text = tree()[f"docs/procedures/{page.name}.md"]
    (one,) = page.folds
    assert "## E, F, G, H, I, J · Unload 13R, 12R, 13L, 11R, 12L and 11L" in text
    first = one.turns[0]
    assert f"Do steps {first.first} to {first.last} once for each row, in this order." in text
    assert text.count('<b class="slot">lock</b>') == 2  # in the line at its head, and in the step
    for turn in one.turns:
        row = text[text.index(f'<th scope="row">{turn.bay}</th><td', text.index("pg-turns")) :].split(
            "</tr>"
        )[0]
        assert f'<td data-label="lock">lock {turn.bay}</td>' in row
        assert f">{turn.first} to {turn.last}</td>" in row


def test_the_hold_page_says_what_governs_and_why_a_type_is_refused() -> None:
    text = tree()["docs/holds/SR-AFT.md"]
    assert "<summary>Unit maximum</summary>" in text
    assert "<strong>1\u00a0134\u00a0kg (2\u00a0500\u00a0lb)</strong>" in text
    assert "contour is E; the position takes contour H, C" in text
    assert "1210" in text or "1 210" in text  # another candidate, with its value
    assert '<tr id="source-WB">' in text
    assert 'href="#source-WB">WB 5-1</a>' in text
    assert "at most 4\u00a0000\u00a0kg" in text  # the zone
    assert "by hand, from outside" in text
    assert "held down by the sill stop handle at down; a spring raises it behind a unit" in text


def test_every_restraint_of_the_diagram_is_in_the_table_with_its_number() -> None:
    hold = hold_site("K1B", "TR-FWD").hold
    text = tree()["docs/holds/TR-FWD.md"]
    rows = re.findall(r'<tr id="item-([^"]+)"><th scope="row">(\d+)</th>', text)
    assert rows == [(name, str(n)) for n, name in enumerate(hold.restraints, start=1)]
    assert f">{len(rows)}</text>" in text


def test_no_hold_page_shows_a_table_without_rows() -> None:
    """A bulk hold has no controls: their table is left out, not shown empty."""
    for path, text in pages().items():
        if path.startswith("docs/holds/"):
            assert not re.search(r"<tbody>\s*</tbody>", text), path


def test_a_station_says_its_masses_in_its_own_unit_first() -> None:
    assert "2\u00a0500\u00a0lb (1\u00a0134\u00a0kg)" in tree("N4T")["docs/holds/SR-AFT.md"]


def test_a_hold_without_a_plan_says_why() -> None:
    bare = site("N4T")
    hold = replace(bare.holds[0], pages=(), why_no_page=("nothing <moves> it",))
    text = station_tree(replace(bare, holds=(hold,)), templates())
    assert "No procedure: nothing &lt;moves&gt; it" in text["docs/index.md"]
    assert "No procedure: nothing &lt;moves&gt; it" in text["docs/holds/SR-AFT.md"]


def test_two_procedures_of_one_name_never_hide_each_other() -> None:
    bare = site("N4T")
    pages_of_one_name = (bare.holds[0].pages[0], replace(bare.holds[0].pages[1], name="SR-AFT-loading"))
    twins = replace(bare, holds=(replace(bare.holds[0], pages=pages_of_one_name),))
    with pytest.raises(ProcgenError, match="N4T has two procedures called SR-AFT-loading"):
        station_tree(twins, templates())


def hostile() -> StationSite:
    """A station whose words try to get out of every place they are put in."""
    evil = '</script></style>" *x* {: #y } <img src=x onerror=alert(1)> # `z`'
    old = site("N4T")
    hold = old.holds[0]
    page = hold.pages[0]
    page = replace(
        page,
        title=evil,
        blocks=tuple(
            replace(b, title=evil, intro=evil, steps=tuple(replace(s, text=evil, why=evil) for s in b.steps))
            for b in page.blocks
        ),
        folds=tuple(
            replace(
                f,
                title=evil,
                labels=(evil,) * len(f.labels),
                intro=f"{evil} [[0]]",
                steps=tuple(replace(s, text=f"[[^0]] {evil}") for s in f.steps),
                turns=tuple(replace(t, names=(evil,) * len(t.names)) for t in f.turns),
            )
            for f in page.folds
        ),
    )
    machine = replace(hold.hold, title=evil)
    return replace(
        old,
        airline=evil,
        station=replace(old.station, title=evil),
        holds=(replace(hold, hold=machine, pages=(page,)),),
    )


def test_words_from_the_data_cannot_break_a_page() -> None:
    written = {**station_tree(hostile(), templates()), **home_tree([hostile()], templates())}
    for path, text in written.items():
        assert "<img" not in text or path.endswith(".yml"), path
        assert "</script></style>" not in text or path.endswith(".yml"), path
    assert yaml.safe_load(written["mkdocs.yml"])["site_name"]


def test_the_builders_file_asks_for_nothing_from_outside_and_has_no_hook_of_ours() -> None:
    for settings in (tree()["mkdocs.yml"], home_tree(sites(), templates())["mkdocs.yml"]):
        read = yaml.safe_load(settings)
        assert read["theme"]["font"] is False
        assert read["plugins"] == ["search"]
        assert "hooks" not in read
        assert "http" not in settings


def test_home_leads_to_every_station_hold_and_card() -> None:
    text = home_tree(sites(), templates())["docs/index.md"]
    for found in sites():
        code = found.station.code
        assert f'href="{code}/index.html"' in text
        assert found.station.revision.date in text
        for hold in found.holds:
            assert f'href="{code}/holds/{hold.hold.name}.html"' in text
            for page in hold.pages:
                assert f'href="{code}/cards/{page.name}.html"' in text


def test_the_same_records_give_the_same_bytes() -> None:
    assert station_tree(site("K1B"), templates()) == tree()
    assert home_tree(sites(), templates()) == home_tree(sites(), templates())
