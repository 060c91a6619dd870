"""How the revisions of a station stand on a day: which is in force, which are drafts, superseded, expired."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from procgen.diagnostics import Finding, Place, Severity, Span
from procgen.release.files import FOLDER, release_file
from procgen.results.release import Chain, Released, Standing

EXPIRED_RULE = "temporary-revision-expired"

RULES: Mapping[str, str] = {
    EXPIRED_RULE: "A temporary revision is past its last day and nothing has taken its place.",
}
"""Every rule of this part, with its meaning in one line."""


def in_force(chain: Chain, on: str) -> Released | None:
    """The revision in force on a day (ISO 8601): the newest that is approved, effective and not expired.

    What was approved late counts from its approval on, and not for the days before it.
    When a temporary revision ends, the one before it is in force again.
    """
    return next((one for one in reversed(chain.releases) if _may_count(one, on)), None)


def _may_count(one: Released, on: str) -> bool:
    return one.approved and one.counts_from <= on and not _expired(one, on)


def _expired(one: Released, on: str) -> bool:
    return bool(one.release.expires) and one.release.expires < on


def standings(chain: Chain, on: str) -> Mapping[int, Standing]:
    """How each release stands on a day, by its number."""
    now = in_force(chain, on)
    return {one.release.number: _standing(one, now, on) for one in chain.releases}


def _standing(one: Released, now: Released | None, on: str) -> Standing:
    if one is now:
        return Standing.IN_FORCE
    if now is not None and one.release.number < now.release.number:
        return Standing.SUPERSEDED
    if _expired(one, on):
        return Standing.EXPIRED
    return Standing.NOT_YET if one.approved else Standing.DRAFT


def check_dates(chain: Chain, on: str) -> Iterator[Finding]:
    """Temporary revisions that have run out on a day, and that no later revision in force has replaced.

    Of a chain that is not in order nobody can say so: what has replaced one may be what is lost.
    """
    if chain.findings:
        return
    standing = standings(chain, on)
    for one in chain.releases:
        release, number = one.release, one.release.number
        if standing[number] is Standing.EXPIRED:
            yield Finding(
                EXPIRED_RULE,
                f"the temporary revision {number} of {chain.station} ended on {release.expires}",
                Place(f"{chain.station}/{FOLDER}/{release_file(number)}", span=Span(1, 1, 1, 1)),
                Severity.ERROR,
                "release a revision that takes its place: with the change for good, or without it",
            )
