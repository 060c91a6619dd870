"""A station's releases on its site: each as it was recorded, and marked for how it stands."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext

from procgen import release
from procgen.pipeline.checking import Checked, check, load_inputs
from procgen.pipeline.editions import editions_of
from procgen.pipeline.releasing import Refused, Wanted, prepare_approval, prepare_release
from procgen.publish import station_tree
from procgen.results.edition import Edition
from procgen.results.release import Standing
from tests.publish.sites import templates
from tests.support import ROOT
from tests.whole_check import example_files

CODE = "S3C"
HOLD = "fleet/holds/ONE.yaml"
ANSWERS = "S3C/answers.yaml"
AUTHOR = "A. Person (invented)"
REVIEWER = "B. Person (invented)"


def checked(files: Mapping[str, str]) -> Checked:
    return check(load_inputs(files), today="2026-06-01")


def released(files: dict[str, str], wanted: Wanted, approve: bool = True) -> dict[str, str]:
    """The files with one more release of the station, made by the pipeline; what it owes is answered."""
    now = checked(files)
    ready = prepare_release(now, now.network.stations[CODE], wanted)
    if isinstance(ready, Refused):
        assert ready.review is not None, ready.findings
        files = {**files, ANSWERS: _answered(files.get(ANSWERS, "answers:\n"), ready.review)}
        now = checked(files)
        ready = prepare_release(now, now.network.stations[CODE], wanted)
    assert isinstance(ready, release.Addition), ready
    files = {**files, **_written(ready)}
    if approve:
        inside = f"{CODE}/releases/"
        texts = {name.removeprefix(inside): text for name, text in files.items() if name.startswith(inside)}
        chain = release.read_chain(CODE, texts)
        done = prepare_approval(chain, len(chain.releases), REVIEWER, wanted.date, "")
        files = {**files, **_written(done)}
    return files


def _answered(text: str, review: release.Review) -> str:
    """The answers with the lines that are missing, filled in as a reviewer would."""
    filled = {"NAME": REVIEWER, "YYYY-MM-DD": "2026-01-31", "WHY": "Weighed again."}
    for one in review.owing:
        line = one.line
        for word, put in filled.items():
            line = line.replace(word, put)
        text += f"  {line}\n"
    return text


def _written(addition: release.Addition) -> dict[str, str]:
    folder = f"{CODE}/releases"
    return {f"{folder}/{addition.name}": addition.text, f"{folder}/{release.LIST_FILE}": addition.lists[1]}


def _tightened(files: dict[str, str], most: str) -> dict[str, str]:
    """One limit of the hold lowered: it owes no answer."""
    text = re.sub(r"(\"21\": .*?max: \{K: )\d+ kg", rf"\g<1>{most} kg", files[HOLD])
    return {**files, HOLD: text}


@cache
def released_once() -> Mapping[str, str]:
    """The example's files with the first release, approved."""
    files = {name: text for name, text in example_files().items() if "/releases/" not in name}
    return released(files, Wanted("2026-01-10", "2026-01-15", AUTHOR, "First issue."))


@cache
def history() -> Mapping[str, str]:
    """Three releases: the first for good, the second temporary, the third not approved; then a draft."""
    files = _tightened(dict(released_once()), "850")
    files = released(files, Wanted("2026-02-10", "2026-02-15", AUTHOR, "Loader out.", "2026-03-31"))
    files = _tightened(files, "840")
    files = released(files, Wanted("2026-04-10", "2026-04-15", AUTHOR, "New data."), approve=False)
    return _tightened(files, "830")


@cache
def editions(on: str) -> Mapping[str, Edition]:
    now = checked(history())
    return {one.folder: one for one in editions_of(now, now.network.stations[CODE], on)}


def page(edition: Edition, name: str = "docs/holds/ONE.md") -> str:
    return station_tree(edition, templates())[name]


@pytest.mark.parametrize(
    ("on", "standings"),
    [
        ("2026-02-01", {"": 1, "r002": Standing.NOT_YET, "r003": Standing.DRAFT, "draft": None}),
        ("2026-03-01", {"": 2, "r001": Standing.SUPERSEDED, "r003": Standing.DRAFT, "draft": None}),
        ("2026-05-01", {"": 1, "r002": Standing.EXPIRED, "r003": Standing.DRAFT, "draft": None}),
    ],
)
def test_the_revision_in_force_comes_first_and_every_other_says_how_it_stands(
    on: str, standings: Mapping[str, Standing | int | None]
) -> None:
    found = editions(on)
    assert next(iter(found)) == ""
    assert set(found) == set(standings)
    assert found[""].standing is Standing.IN_FORCE
    assert found[""].site.station.revision.number == standings[""]
    for folder, standing in standings.items():
        if folder:
            assert found[folder].standing is standing


def _at(on: str, address: str) -> tuple[Edition, str]:
    """What stands at an address below the station's on a day: an edition and its file, stubs followed."""
    found = editions(on)
    folder, _, file = address.partition("/")
    if folder in found:
        return found[folder], file
    tree = station_tree(found[""], templates())
    stub = tree[f"docs/{address}"]
    (href,) = set(re.findall(r'(?:href="|url=|replace\(")(\.\./[^"]*)"', stub))
    assert href == "../" * address.count("/") + file
    assert {f"docs/{file}", f"docs/{file.removesuffix('.html')}.md"} & set(tree)
    return found[""], file


def test_every_release_is_found_by_the_same_address_on_any_day() -> None:
    for on in ("2026-02-01", "2026-03-01", "2026-05-01"):
        for number in (1, 2, 3):
            for file in ("index.html", "holds/ONE.html", "cards/ONE-loading.html", "revisions.html"):
                edition, shown = _at(on, f"r{number:03}/{file}")
                assert (edition.site.station.revision.number, shown) == (number, file)
    rows = page(editions("2026-05-01")[""], "docs/revisions.md")
    assert [f'S3C/r{number:03}/index.html"' in rows for number in (1, 2, 3)] == [True] * 3


def test_a_page_has_one_stable_address_and_a_draft_none() -> None:
    found = editions("2026-05-01")
    tree = station_tree(found[""], templates())
    pages = {path for path in tree if path.startswith("docs/") and path.endswith((".md", ".html"))}
    stubs = {path for path in pages if path.startswith("docs/r001/")}
    own = {path.replace(".md", ".html").replace("docs/", "docs/r001/", 1) for path in pages - stubs}
    assert stubs == own
    for folder in ("r002", "draft"):
        assert not [path for path in station_tree(found[folder], templates()) if "docs/r0" in path]


@pytest.mark.browser
@pytest.mark.parametrize("scripted", [True, False])
def test_a_stable_address_leads_on_from_a_folder_with_no_server(
    browser: Browser, tmp_path: Path, scripted: bool
) -> None:
    stub = "docs/r001/holds/ONE.html"
    for file, text in (
        (stub, station_tree(editions("2026-05-01")[""], templates())[stub]),
        ("docs/holds/ONE.html", "<!doctype html><title>the page</title><p id='limits'>x</p>"),
    ):
        (tmp_path / file).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / file).write_text(text, "utf-8")
    context = browser.new_context(java_script_enabled=scripted)
    page = context.new_page()
    page.goto(f"{(tmp_path / stub).as_uri()}#limits")
    page.wait_for_url(lambda address: "/r001/" not in address)
    assert page.title() == "the page"
    if scripted:
        assert page.url.endswith("/docs/holds/ONE.html#limits")
    context.close()


def test_every_page_says_at_its_head_how_its_revision_stands() -> None:
    found = editions("2026-05-01")
    marks = {
        "r002": "Expired: this temporary revision ended on 2026-03-31. Revision 1 is in force.",
        "r003": "Draft: revision 3 is not approved. Do not work by it. Revision 1 is in force.",
        "draft": "Draft: this has not been released. Do not work by it. Revision 1 is in force.",
    }
    for folder, words in marks.items():
        for path, text in station_tree(found[folder], templates()).items():
            if path.endswith((".md", ".html")):
                assert words in text[: text.index("</header>") + 2500 if "</header>" in text else 6000], path
    assert "pg-standing" not in page(found[""])
    assert 'data-from="2026-01-15"' in page(found[""])
    temporary = editions("2026-03-01")[""]
    assert "Temporary revision: it counts until 2026-03-31, that day included." in page(temporary)
    superseded = page(editions("2026-03-01")["r001"])
    assert "Superseded: do not work by this page. Revision 2 is in force." in superseded


def test_a_temporary_revision_says_on_each_page_whether_it_changes_it_and_what_counts_after_it() -> None:
    temporary = editions("2026-03-01")[""]
    tree = station_tree(temporary, templates())
    ends = "Temporary revision: it counts until 2026-03-31, that day included."
    card = tree["docs/cards/ONE-loading.html"]
    assert f"{ends} It changes this page." in card
    assert f"{ends} It changes this page." in tree["docs/holds/ONE.md"]
    assert f"{ends}<" in tree["docs/changes.md"]
    unchanged = replace(temporary, pages=tuple(replace(one, since=1) for one in temporary.pages))
    assert f"{ends} It leaves this page as it stands since revision 1." in page(unchanged)
    assert 'data-next="../r001/index.html" data-next-label="Go to revision 1"' in card
    words = "Revision 2 of 2026-02-10, in force from 2026-02-15 to 2026-03-31."
    paper = card[card.index('class="paper revision"') :]
    assert words in paper[: paper.index("</div>")]
    assert "data-next" not in page(editions("2026-05-01")[""])


@pytest.mark.parametrize(
    ("day", "told"),
    [
        ("2026-02-14", "Not yet in force: this revision counts from 2026-02-15."),
        ("2026-03-31", ""),
        ("2026-04-01", "Expired: this temporary revision ended on 2026-03-31. Go to revision 1"),
    ],
)
def test_a_page_kept_past_the_last_day_says_so_and_leads_to_what_counts_again(
    day: str, told: str, tmp_path: Path, context: BrowserContext
) -> None:
    file = tmp_path / "card.html"
    file.write_text(page(editions("2026-03-01")[""], "docs/cards/ONE-loading.html"), "utf-8")
    opened = context.new_page()
    opened.clock.set_fixed_time(f"{day}T12:00:00")
    opened.goto(file.as_uri())
    line = opened.locator("#control-today")
    assert (line.inner_text() if line.is_visible() else "") == told
    standing = opened.locator("#standing").inner_text()
    assert standing == (told.partition(":")[0] or "Temporary until 2026-03-31")
    # What the page said when it was built is not said beside it.
    assert opened.locator("#control .mark").locator("visible=true").count() == 1


def test_a_site_can_be_built_after_a_temporary_revision_has_ended() -> None:
    late = check(load_inputs(history()), today="2026-06-01")
    assert [one.rule for one in late.findings] == [release.EXPIRED_RULE]
    assert late.publishable


def test_a_release_shows_what_was_recorded_whatever_the_files_say_now() -> None:
    for folder, most in {"": "900", "r002": "850", "r003": "840", "draft": "830"}.items():
        assert f"{most} kg" in page(editions("2026-05-01")[folder]).replace("\N{NO-BREAK SPACE}", " ")


def test_pages_carry_their_hash_and_since_when_they_stand_unchanged() -> None:
    found = editions("2026-05-01")
    first, second = found[""].hashes, found["r002"].hashes
    assert first["holds/ONE.html"].sha256 != second["holds/ONE.html"].sha256
    since = {one.file: one.since for one in found["r003"].pages}
    # What was lowered is a limit of the hold: the station's own page does not show it.
    assert (since.pop("index.html"), set(since.values())) == (1, {3})
    assert first["holds/ONE.html"].sha256[:12] in page(found[""])
    listed = page(found[""], "docs/revisions.md")
    for one in found[""].pages:
        assert one.sha256 in listed


def test_every_page_carries_a_hash() -> None:
    edition = editions("2026-05-01")[""]
    tree = station_tree(edition, templates())
    own = {one.file: one.sha256[:12] for one in edition.pages}
    assert "index.html" in own
    for path, text in tree.items():
        file = path.removeprefix("docs/").replace(".md", ".html")
        if file in own:
            assert own[file] in text, path
        elif file.startswith("out-of-service/"):
            assert own[f"{file.rpartition('/')[0]}.html"] in text, path
        elif file in ("changes.html", "revisions.html", "signal-words.html"):
            assert edition.identity[:12] in text, path
        elif not file.startswith("r001/"):  # only lead to where the revision is shown
            assert not path.endswith((".md", ".html")), path


def test_what_changed_names_the_limit_with_both_values() -> None:
    text = page(editions("2026-05-01")["r002"], "docs/changes.md").replace("\N{NO-BREAK SPACE}", " ")
    assert "tightened" in text
    assert "Compared with revision 1." in text
    assert "ONE: position 21" in text
    assert "−50 kg (−5.6 %)" in text
    assert "900 kg" in text
    assert "850 kg" in text
    assert "no release before this one" in page(editions("2026-05-01")[""], "docs/changes.md")


def test_the_built_site_is_whole_and_the_same_on_two_paths_and_two_days(tmp_path: Path) -> None:
    # One release and a draft: building more of them proves no more.
    files = {name: text for name, text in history().items() if not re.search(r"/releases/00[23]", name)}
    first_list = released_once()[f"{CODE}/releases/{release.LIST_FILE}"]
    now_files = {**files, f"{CODE}/releases/{release.LIST_FILE}": first_list}
    now = checked(now_files)
    assert now.chains[CODE].findings == ()
    stations = {name: text for name, text in now_files.items() if name.startswith((f"{CODE}/", "fleet/"))}
    one, other = tmp_path / "one", tmp_path / "some" / "where" / "else"
    # What a program may take from around it without asking: where, when, which zone, which order of sets.
    _built(stations, one, "2026-05-01", TZ="UTC", PYTHONHASHSEED="1", LC_ALL="C")
    _built(stations, other, "2026-05-02", TZ="Pacific/Kiritimati", PYTHONHASHSEED="2", LC_ALL="C.UTF-8")
    one, other = one / "site", other / "site"
    first, second = _bytes(one), _bytes(other)
    assert sorted(first) == sorted(second)
    assert [name for name in first if first[name] != second[name]] == []
    for folder in ("", "r001/", "draft/"):
        assert f"S3C/{folder}holds/ONE.html" in first


def _built(stations: Mapping[str, str], folder: Path, day: str, **surroundings: str) -> None:
    """The site of these files, built in `folder`/site by a program of its own in surroundings of its own."""
    for name, text in stations.items():
        path = folder / "stations" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    command = [sys.executable, "-m", "procgen", "build", "stations", "--out", "site", "--on", day]
    around = {**os.environ, **surroundings, "PYTHONPATH": str(ROOT)}
    ended = subprocess.run(command, cwd=folder, env=around, capture_output=True, text=True, check=False)
    assert (folder / "site" / "index.html").exists(), ended.stdout + ended.stderr


def _bytes(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
