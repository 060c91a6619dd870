"""A station's revisions as text for people and as JSON for programs."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.report.json_text import json_text
from procgen.results.release import Approval, Chain, Released, Standing

_NOT_KNOWN = "how it stands is not known, for the releases are not in order"


def history_text(chain: Chain, standings: Mapping[int, Standing]) -> str:
    """One paragraph for each revision, the newest first; one without a standing is told as not known."""
    if not chain.releases:
        if chain.findings:
            return f"what {chain.station} has released cannot be told, for the releases are not in order"
        return f"{chain.station} has released nothing."
    return "\n\n".join(_paragraph(one, standings.get(one.release.number)) for one in reversed(chain.releases))


def _paragraph(one: Released, standing: Standing | None) -> str:
    about = one.release
    until = f" until {about.expires} (temporary)" if about.expires else ""
    late = "" if one.counts_from == about.effective else f" (meant: {about.effective}; approved later)"
    lines = [
        f"revision {about.number}: {standing or _NOT_KNOWN}",
        f"  released {about.date}, in force from {one.counts_from}{late}{until}",
        f"  written by {about.author}: {about.reason}",
        *(f"  approved by {a.by} on {a.date}{_with(a)}" for a in one.approvals),
        *(f"  accepted by {a.by} on {a.date}: {a.difference}: {a.reason}" for a in about.answers),
        f"  identity {about.identity}",
    ]
    return "\n".join(lines)


def _with(approval: Approval) -> str:
    number = len(approval.accepted)
    mark = f" ({approval.differences[:16]})" if approval.differences else ""
    counted = f", with {number} difference{'' if number == 1 else 's'}{mark}" if number else ""
    return counted + (f": {approval.remark}" if approval.remark else "")


def history_json(chain: Chain, standings: Mapping[int, Standing]) -> str:
    """The same as one JSON object, the oldest revision first."""
    return json_text(
        {
            "station": chain.station,
            "revisions": [
                {
                    "number": one.release.number,
                    "standing": _plain(standings.get(one.release.number)),
                    "date": one.release.date,
                    "effective": one.release.effective,
                    "counts_from": one.counts_from,
                    "expires": one.release.expires or None,
                    "author": one.release.author,
                    "reason": one.release.reason,
                    "identity": one.release.identity,
                    "approvals": [
                        {
                            "by": a.by,
                            "date": a.date,
                            "remark": a.remark,
                            "accepted": list(a.accepted),
                            "differences": a.differences or None,
                        }
                        for a in one.approvals
                    ],
                    "answers": [
                        {"difference": a.difference, "by": a.by, "date": a.date, "reason": a.reason}
                        for a in one.release.answers
                    ],
                }
                for one in chain.releases
            ],
            "findings": [
                {"rule": f.rule, "message": f.message, "file": f.place.file} for f in chain.findings
            ],
        }
    )


def _plain(standing: Standing | None) -> str | None:
    return None if standing is None else str(standing)
