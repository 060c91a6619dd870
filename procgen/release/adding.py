"""What is written when a release or an approval is added to a chain."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.release.files import (
    approval_file,
    approval_text,
    list_text,
    release_file,
    release_text,
)
from procgen.release.record import sha256
from procgen.results.release import Approval, Chain, Release, ReleaseList


@dataclass(frozen=True, slots=True)
class Addition:
    """A file to write, and the texts of the list before and after it is there."""

    name: str
    text: str
    lists: tuple[str, str]


def release_added(chain: Chain, release: Release, record: str) -> Addition:
    """A release at the end of its chain. Raises `ValueError` where it does not belong there."""
    if chain.findings or release.station != chain.station or release.number != len(chain.releases) + 1:
        raise ValueError("a release goes to the end of a chain that is in order")
    if release.previous != previous_of(chain) or release.identity != sha256(record):
        raise ValueError("a release names the one before it and its own record")
    return _added(chain, release_file(release.number), release_text(release, record))


def approval_added(chain: Chain, approval: Approval) -> Addition:
    """An approval of a release of the chain. Raises `ValueError` where it names another."""
    if chain.findings or not 1 <= approval.number <= len(chain.releases):
        raise ValueError("an approval goes to a release of a chain that is in order")
    released = chain.releases[approval.number - 1]
    if (approval.station, approval.release) != (chain.station, sha256(released.text)):
        raise ValueError("an approval names the release it is of")
    name = approval_file(approval.number, len(released.approvals) + 1)
    return _added(chain, name, approval_text(approval))


def previous_of(chain: Chain) -> str:
    """What the next release of a chain names as the one before it."""
    return sha256(chain.last.text) if chain.last else ""


def _added(chain: Chain, name: str, text: str) -> Addition:
    files, digest = chain.listed.files, sha256(text)
    before = list_text(ReleaseList(files, (name, digest)))
    after = list_text(ReleaseList({**files, name: digest}))
    return Addition(name, text, (before, after))
