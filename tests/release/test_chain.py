"""A chain of releases: what is added stands; what is altered, lost, added by hand or reordered is named."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.model.answer import Answer
from procgen.release import all_gone, in_force, read_chain, sha256, standings
from procgen.release.files import (
    LIST_FILE,
    approval_file,
    list_text,
    read_list,
    release_file,
)
from procgen.release.standing import EXPIRED_RULE, check_dates
from procgen.results.release import ReleaseList, Standing
from tests.release.chains import CODE, approval_of, chain_files, release_of, with_added

WHOLE = chain_files(3, approved=2)


def found(files: dict[str, str]) -> dict[str, set[str]]:
    """The rules that reading a chain finds, by the file each points at."""
    rules: dict[str, set[str]] = {}
    for one in read_chain(CODE, files).findings:
        rules.setdefault(one.place.file.rpartition("/")[2], set()).add(one.rule)
        assert one.suggestion
    return rules


def test_a_chain_that_was_only_added_to_is_in_order() -> None:
    chain = read_chain(CODE, WHOLE)
    assert chain.findings == ()
    assert [one.release.number for one in chain.releases] == [1, 2, 3]
    assert [one.approved for one in chain.releases] == [True, True, False]
    assert chain.releases[1].release.previous == sha256(WHOLE["001.json"])
    assert set(chain.listed.files) == set(WHOLE) - {LIST_FILE}
    assert read_chain(CODE, {}).releases == ()


@pytest.mark.parametrize("name", sorted(WHOLE))
def test_every_lost_file_is_named(name: str) -> None:
    files = {key: text for key, text in WHOLE.items() if key != name}
    assert "release-missing" in found(files)[name]


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_no_altered_byte_goes_unseen(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(sorted(WHOLE)))
    text = WHOLE[name]
    at = data.draw(st.integers(0, len(text) - 1))
    put = data.draw(st.sampled_from(["", "x", "0", "\n", '"', "\udcff"]))
    altered = text[:at] + put + text[at + 1 :]
    if altered != text:
        rules = found({**WHOLE, name: altered})
        assert rules, (name, at, put)
        if name != LIST_FILE:
            assert rules[name] & {"release-altered"}


def test_answers_without_any_release_tell_that_the_whole_folder_is_gone() -> None:
    given = Answer("SR-AFT/limit/41", "s1", "B. Reviewer (invented)", "2026-06-01", "Reason.")
    (finding,) = all_gone({CODE: (given,), "S2B": ()}, {})
    assert (finding.rule, CODE in finding.message) == ("release-missing", True)
    assert list(all_gone({CODE: (given,)}, {CODE: read_chain(CODE, WHOLE)})) == []


@pytest.mark.parametrize(("first", "second"), [(1, 2), (2, 3), (1, 3)])
def test_reordered_files_are_named_even_with_a_list_made_to_match(first: int, second: int) -> None:
    one, other = release_file(first), release_file(second)
    files = {**WHOLE, one: WHOLE[other], other: WHOLE[one]}
    assert {name: found(files)[name] for name in (one, other)} == {
        one: {"release-out-of-order"},
        other: {"release-out-of-order"},
    }
    says = " ".join(finding.message for finding in read_chain(CODE, files).findings)
    assert f"“{one}” holds what was released as “{other}”" in says
    digests = {name: sha256(text) for name, text in files.items() if name != LIST_FILE}
    files[LIST_FILE] = list_text(ReleaseList(digests))
    assert "release-out-of-order" in found(files)[one]
    assert "release-out-of-order" in found(files)[other]


def test_a_release_rewritten_with_its_list_breaks_the_one_behind_it() -> None:
    text = WHOLE["001.json"].replace("Reason 1.", "Reason X.")
    files = {**WHOLE, "001.json": text}
    listed = read_list(WHOLE[LIST_FILE])
    files[LIST_FILE] = list_text(ReleaseList({**listed.files, "001.json": sha256(text)}))
    rules = found(files)
    assert rules["002.json"] == {"release-out-of-order"}
    assert rules[approval_file(1, 1)] == {"release-out-of-order"}


def test_a_record_swapped_under_its_release_is_found() -> None:
    text = WHOLE["003.json"].replace('"number":3},"release"', '"number":4},"release"')
    assert text != WHOLE["003.json"]
    listed = read_list(WHOLE[LIST_FILE])
    files = {**WHOLE, "003.json": text}
    files[LIST_FILE] = list_text(ReleaseList({**listed.files, "003.json": sha256(text)}))
    assert found(files) == {"003.json": {"release-altered"}}


def test_a_file_put_in_by_hand_is_named() -> None:
    forged = approval_of(read_chain(CODE, WHOLE), 3)
    assert found({**WHOLE, forged.name: forged.text}) == {forged.name: {"release-unlisted"}}
    assert found({**WHOLE, "notes.txt": "x"}) == {"notes.txt": {"release-unlisted"}}


def test_only_what_was_done_is_named_and_not_what_follows_from_it() -> None:
    altered = {**WHOLE, "001.json": WHOLE["001.json"].replace("Reason 1.", "Reason X.")}
    assert found(altered) == {"001.json": {"release-altered"}}
    cut = {**WHOLE, "002.json": WHOLE["002.json"][:-40]}
    assert found(cut) == {"002.json": {"release-altered"}}
    assert found({**WHOLE, LIST_FILE: "{"}) == {LIST_FILE: {"release-altered"}}
    assert found({**WHOLE, "005.json": "{}"}) == {"005.json": {"release-unlisted"}}


def test_a_list_from_before_the_last_release_is_named() -> None:
    before = chain_files(2, approved=2)[LIST_FILE]
    assert found({**WHOLE, LIST_FILE: before}) == {"003.json": {"release-unlisted"}}


def test_a_chain_between_two_steps_of_writing_is_in_order() -> None:
    """With the list that says a file is coming, the file may be there or not."""
    addition = approval_of(read_chain(CODE, WHOLE), 3)
    without = {**WHOLE, LIST_FILE: addition.lists[0]}
    assert found(without) == {}
    assert not read_chain(CODE, without).releases[2].approved
    assert addition.name not in read_chain(CODE, without).listed.files
    with_it = {**without, addition.name: addition.text}
    assert found(with_it) == {}
    assert read_chain(CODE, with_it).releases[2].approved
    assert read_chain(CODE, with_it).listed.files[addition.name] == sha256(addition.text)


def test_nothing_is_added_to_a_chain_that_is_not_in_order() -> None:
    broken = read_chain(CODE, {**WHOLE, "001.json": "{}\n"})
    with pytest.raises(ValueError, match="in order"):
        release_of(broken)
    with pytest.raises(ValueError, match="in order"):
        approval_of(broken, 1)


def test_the_revision_in_force_is_the_newest_that_is_approved_and_effective() -> None:
    """Revisions are effective on 2026-03-01, 2026-06-01 and 2026-09-01; the third is not approved."""
    chain = read_chain(CODE, WHOLE)
    assert in_force(chain, "2026-02-28") is None
    assert standings(chain, "2026-04-01") == {
        1: Standing.IN_FORCE,
        2: Standing.NOT_YET,
        3: Standing.DRAFT,
    }
    assert standings(chain, "2026-12-01") == {
        1: Standing.SUPERSEDED,
        2: Standing.IN_FORCE,
        3: Standing.DRAFT,
    }


def test_a_late_approval_counts_from_its_own_day_and_not_before() -> None:
    """The revision was to count from 2026-03-01; it was approved on 2026-03-09."""
    files = chain_files(1)
    files = with_added(files, approval_of(read_chain(CODE, files), 1, date="2026-03-09"))
    chain = read_chain(CODE, files)
    assert chain.releases[0].counts_from == "2026-03-09"
    assert standings(chain, "2026-03-08") == {1: Standing.NOT_YET}
    assert standings(chain, "2026-03-09") == {1: Standing.IN_FORCE}


def test_of_a_chain_with_a_gap_nothing_is_said_of_temporary_revisions() -> None:
    files = chain_files(3, approved=3, expires="2026-09-30")
    del files["002.json"], files[approval_file(2, 1)]
    chain = read_chain(CODE, files)
    assert {one.rule for one in chain.findings} == {"release-missing"}
    assert list(check_dates(chain, "2026-10-01")) == []


def test_when_a_temporary_revision_ends_the_one_before_it_counts_again_and_the_check_says_so() -> None:
    chain = read_chain(CODE, chain_files(2, approved=2, expires="2026-06-30"))
    assert standings(chain, "2026-06-30") == {1: Standing.SUPERSEDED, 2: Standing.IN_FORCE}
    assert list(check_dates(chain, "2026-06-30")) == []
    assert standings(chain, "2026-07-01") == {1: Standing.IN_FORCE, 2: Standing.EXPIRED}
    (finding,) = check_dates(chain, "2026-07-01")
    assert (finding.rule, finding.place.file) == (EXPIRED_RULE, "S1A/releases/002.json")
    files = chain_files(2, approved=2, expires="2026-06-30")
    files = with_added(files, release_of(read_chain(CODE, files)))
    files = with_added(files, approval_of(read_chain(CODE, files), 3))
    assert list(check_dates(read_chain(CODE, files), "2026-10-01")) == []
