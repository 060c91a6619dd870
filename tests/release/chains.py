"""Small chains for the tests: real releases and approvals around a record that says nothing."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.release import (
    Addition,
    approval_added,
    previous_of,
    read_chain,
    release_added,
    sha256,
)
from procgen.release.files import LIST_FILE
from procgen.results.release import Approval, Chain, Release

CODE = "S1A"
DAYS = {1: "2026-03-01", 2: "2026-06-01", 3: "2026-09-01"}


def record(number: int) -> str:
    """A record's text that differs from revision to revision."""
    return f'{{"format":1,"number":{number}}}\n'


def release_of(chain: Chain, expires: str = "") -> Addition:
    """The next release of a chain."""
    number = len(chain.releases) + 1
    day = DAYS[number]
    about = Release(
        station=CODE,
        number=number,
        date=day,
        effective=day,
        author="A. Writer (invented)",
        reason=f"Reason {number}.",
        identity=sha256(record(number)),
        previous=previous_of(chain),
        expires=expires,
    )
    return release_added(chain, about, record(number))


def approval_of(chain: Chain, number: int, by: str = "B. Reviewer (invented)", date: str = "") -> Addition:
    """An approval of a release of a chain."""
    text = chain.releases[number - 1].text
    return approval_added(chain, Approval(CODE, number, sha256(text), by, date or DAYS[number]))


def with_added(files: Mapping[str, str], addition: Addition) -> dict[str, str]:
    """A chain's files after an addition."""
    return {**files, addition.name: addition.text, LIST_FILE: addition.lists[1]}


def chain_files(releases: int, approved: int = 0, expires: str = "") -> dict[str, str]:
    """The files of a chain; the last release is temporary where `expires` says so."""
    files: dict[str, str] = {}
    for number in range(1, releases + 1):
        last = expires if number == releases else ""
        files = with_added(files, release_of(read_chain(CODE, files), last))
        if number <= approved:
            files = with_added(files, approval_of(read_chain(CODE, files), number))
    return files
