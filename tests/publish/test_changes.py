"""What changed, and why: each difference with the edit behind it, and who accepted it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from procgen import release
from procgen.pipeline.differing import draft_side, released_side, reviewed
from procgen.pipeline.editions import editions_of
from procgen.pipeline.releasing import Refused, Wanted, prepare_release
from procgen.publish import station_tree
from procgen.publish.against import against
from procgen.release.files import release_text
from procgen.report.differences import differences_text
from procgen.results.edition import Edition
from tests.publish.sites import templates
from tests.publish.test_editions import (
    ANSWERS,
    AUTHOR,
    CODE,
    HOLD,
    REVIEWER,
    _tightened,
    checked,
    released,
    released_once,
)

EDIT = "positions.21.max.K: {was} kg → {now} kg"


def _limited(files: Mapping[str, str], most: str) -> dict[str, str]:
    """The limit of position 21 changed, by whichever way."""
    return _tightened(dict(files), most)


@cache
def history() -> Mapping[str, str]:
    """Three releases of 900, 910 and 905 kg, all approved, and a draft of 930 kg, and 2410 in all."""
    files = _limited(released_once(), "910")
    files = released(files, Wanted("2026-02-10", "2026-02-15", AUTHOR, "New data."))
    files = _limited(files, "905")
    files = released(files, Wanted("2026-03-10", "2026-03-15", AUTHOR, "An error of five."))
    files = _limited(files, "930")
    return {**files, HOLD: files[HOLD].replace("combined: 2400 kg", "combined: 2410 kg")}


def _at_last(files: Mapping[str, str]) -> dict[str, str]:
    """The files as they were released last: without a draft."""
    text = files[HOLD].replace("combined: 2410 kg", "combined: 2400 kg")
    return _limited({**files, HOLD: text}, "905")


def editions(files: Mapping[str, str]) -> Mapping[str, Edition]:
    now = checked(files)
    return {one.folder: one for one in editions_of(now, now.network.stations[CODE], "2026-05-01")}


@cache
def shown() -> Mapping[str, Edition]:
    return editions(history())


def page(edition: Edition, name: str = "changes") -> str:
    text = station_tree(edition, templates())[f"docs/{name}.md"]
    return re.sub(r"<[^>]+>", " ", text).replace("&#34;", '"').replace("\N{NO-BREAK SPACE}", " ")


def _line(files: Mapping[str, str]) -> int:
    """The line of the limit."""
    return next(n for n, line in enumerate(files[HOLD].splitlines(), start=1) if "max: {K: 930 kg" in line)


def test_a_release_keeps_each_difference_with_the_edit_behind_it() -> None:
    first, second, *_ = checked(history()).chains[CODE].releases
    assert first.release.explained is None
    told = second.release.explained
    assert told is not None
    (edit,) = told.edits
    place, line = edit.first, _line(history())
    assert (place.file, place.was_line, place.now_line) == (HOLD, line, line)
    assert (edit.first.was, edit.first.now) == ("900 kg", "910 kg")
    assert told.differences
    assert {cause.edits for one in told.differences for cause in one.causes} == {(1,)}


def test_the_page_names_file_line_and_text_of_the_cause_and_who_accepted_it() -> None:
    text = page(shown()["r002"])
    assert f"{HOLD}:{_line(history())}" in text
    assert EDIT.format(was=900, now=910) in text
    assert re.search(rf"{re.escape(REVIEWER)}\s*, \s*2026-01-31\s*: Weighed again\.", text)
    assert "all accepted by name" in text


def test_what_was_only_looked_at_names_who_approved_the_whole() -> None:
    text = page(shown()[""])
    assert "Nothing got less safe." in text
    assert re.search(rf"looked at: \s*{re.escape(REVIEWER)}\s*, \s*2026-03-10", text)


def test_what_changed_over_several_revisions_tells_each_ones_part() -> None:
    text = page(shown()[""], "changes-since-1")
    assert "900 kg" in text
    assert "+5 kg (+0.6 %)" in text
    parts = re.findall(r"Revision (\d): (\d+ kg → \d+ kg)", text)
    assert dict(parts) == {"2": "900 kg → 910 kg", "3": "910 kg → 905 kg"}
    for was, now in ((900, 910), (910, 905)):
        assert EDIT.format(was=was, now=now) in text
    assert text.count("Weighed again.") == text.count("looked at:") == len(_loosened(shown()[""], 1))
    assert "all accepted by name" in text


def _loosened(edition: Edition, since: int) -> list[str]:
    (found,) = [one for one in edition.changes if one.since == since]
    return [one.difference.identity for one in found.changed if one.difference.classed == "loosened"]


def test_pages_of_several_revisions_are_there_for_what_is_not_superseded() -> None:
    files = {folder: set(station_tree(one, templates())) for folder, one in shown().items()}
    since = {
        folder: sorted(re.findall(r"docs/changes-since-\d", str(names))) for folder, names in files.items()
    }
    assert since[""] == ["docs/changes-since-1"]
    assert since["draft"] == ["docs/changes-since-1", "docs/changes-since-2"]
    assert [since[f"r00{number}"] for number in (1, 2)] == [[], []]


def test_the_draft_says_what_is_owed_with_the_line_that_accepts_it() -> None:
    now = checked(history())
    wanted = Wanted("2026-05-01", "2026-05-02", AUTHOR, "Issue 3.")
    refused = prepare_release(now, now.network.stations[CODE], wanted)
    assert isinstance(refused, Refused)
    assert refused.review is not None
    text = page(shown()["draft"])
    for one in refused.review.owing:
        assert text.count(one.line) == 2  # where it stands, and among all that is owed
    assert f"procgen release {CODE} --effective DATE --author NAME --reason TEXT" in text
    gate = shown()["draft"].gate
    assert gate is not None
    assert f"procgen approve {CODE} 4 --as NAME --differences {gate.hash[:16]}" in text
    assert "not accepted by anybody" in text
    assert EDIT.format(was=905, now=930) in text


def test_the_draft_says_what_its_answers_accept_already_and_which_is_stale() -> None:
    owed = shown()["draft"].gate
    assert owed is not None
    assert len(owed.owed) > 1
    filled = {"NAME": REVIEWER, "YYYY-MM-DD": "2026-04-30", "WHY": "Weighed a third time."}
    lines = [f"  {line}\n" for line in owed.owed]
    lines[0] = re.sub('seal: "[0-9a-f]{4}', 'seal: "0000', lines[0])
    text = "".join(lines)
    for word, put in filled.items():
        text = text.replace(word, put)
    told = page(editions({**history(), ANSWERS: history()[ANSWERS] + text})["draft"])
    count = len(owed.owed)
    assert told.count("Weighed a third time.") == count - 1
    assert "1 not accepted by anybody" in told
    assert f"{count - 1} difference" in told
    assert told.count(owed.owed[0]) == 2
    assert f"the answer of {REVIEWER}, 2026-04-30, was given to another state of it" in told


def _without_explanations(files: Mapping[str, str]) -> dict[str, str]:
    """The same history as a program wrote it that did not keep causes."""
    chain = checked(files).chains[CODE]
    kept = {name: text for name, text in files.items() if "/releases/" not in name}
    before = release.read_chain(CODE, {})
    texts: dict[str, str] = {}
    for one in chain.releases:
        about = replace(one.release, explained=None, previous=release.previous_of(before))
        added = release.release_added(before, about, one.record)
        texts = {**texts, added.name: added.text, release.LIST_FILE: added.lists[1]}
        before = release.read_chain(CODE, texts)
    return {**kept, **{f"{CODE}/releases/{name}": text for name, text in texts.items()}}


def test_a_release_from_before_causes_were_kept_renders_as_it_stood() -> None:
    files = _without_explanations(_at_last(history()))
    second = checked(files).chains[CODE].releases[1]
    assert "explained" not in second.text[: second.text.index('"record"')] + second.text[-2000:]
    assert release_text(second.release, second.record) == second.text
    edition = editions(files)["r002"]
    assert [one.difference for one in edition.changes[0].changed]
    text = page(edition)
    assert "900 kg" in text
    assert "before releases kept their causes" in text
    assert "Weighed again." in text


def test_a_release_says_what_it_was_told_to_say_whatever_the_program_tells_by_now() -> None:
    now = checked(_at_last(history()))
    chain = now.chains[CODE]
    second = chain.releases[1]
    told = second.release.explained
    assert told is not None
    said = replace(told, differences=tuple(replace(one, why="as it was told") for one in told.differences))
    other = replace(second, release=replace(second.release, explained=said))
    changed = replace(chain, releases=(chain.releases[0], other, *chain.releases[2:]))
    found = editions_of(replace(now, chains={CODE: changed}), now.network.stations[CODE], "2026-05-01")
    (edition,) = [one for one in found if one.folder == "r002"]
    assert "As it was told." in page(edition)


def test_a_draft_against_an_older_release_knows_what_was_looked_at_since() -> None:
    now = checked(_at_last(history()))
    chain = now.chains[CODE]
    draft = draft_side(now, now.network.stations[CODE], "the draft")
    lowered = reviewed(released_side(chain, 2), draft)
    assert [one.classed for one in lowered.comparison.differences] == ["tightened"]
    assert lowered.owing == frozenset()
    (looked,) = lowered.looked.values()
    assert [(one.by, one.revision) for one in looked] == [(REVIEWER, 3)]
    raised = reviewed(released_side(chain, 1), draft)
    assert raised.owing == frozenset()
    (accepted,) = raised.accepted.values()
    assert [(one.by, one.revision, one.reason) for one in accepted] == [(REVIEWER, 2, "Weighed again.")]


def test_what_changed_again_since_it_was_looked_at_is_owed_again() -> None:
    now = checked(_limited(_at_last(history()), "899"))
    chain = now.chains[CODE]
    draft = draft_side(now, now.network.stations[CODE], "the draft")
    lowered = reviewed(released_side(chain, 2), draft)
    assert {one.identity for one in lowered.comparison.differences} == lowered.owing
    assert dict(lowered.looked) == {}


def test_an_acceptance_in_each_of_several_revisions_is_named() -> None:
    chain = checked(_at_last(history())).chains[CODE]
    older, newer = released_side(chain, 1), released_side(chain, 3)
    (name,) = newer.accepted
    (given,) = newer.accepted[name]
    again = replace(given, by="C. Person (invented)", revision=3)
    found = reviewed(older, replace(newer, accepted={name: (given, again)}))
    assert [one.by for one in found.accepted[name]] == [REVIEWER, "C. Person (invented)"]
    text = differences_text(found)
    for one in (given, again):
        assert f"accepted by {one.by} on {one.date} (revision {one.revision}): {one.reason}" in text


def test_of_long_texts_only_what_differs_is_quoted() -> None:
    words = [f"word{number}" for number in range(200)]
    was, now = " ".join(words), " ".join([*words[:100], "OTHER", *words[101:]])
    before, after = against(was, now, brief=True)
    assert "<del>word100</del>" in before
    assert "<ins>OTHER</ins>" in after
    assert "word99" in after
    assert "word101" in after
    assert "word50" not in after
    assert len(after) < 300
    whole, _ = against(was, now)
    assert "word50" in whole
    many = " ".join(f"X{number}" if number % 20 == 0 else word for number, word in enumerate(words))
    before, after = against(was, many, brief=True)
    shown = after.count("<ins>")
    assert f"{10 - shown} more places" in after
    assert before.count("<del>") == shown
    short, _ = against("one two three", "one four three", brief=True)
    assert short == "one <del>two</del> three"
