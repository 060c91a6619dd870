"""A station's revisions as text for people and as JSON for programs."""

from __future__ import annotations

from collections.abc import Mapping

from procgen.report.json_text import json_text
from procgen.results.release import Chain, Released, Standing


def history_text(chain: Chain, standings: Mapping[int, Standing]) -> str:
    """One paragraph for each revision, the newest first."""
    if not chain.releases:
        return f"{chain.station} has released nothing."
    return "\n\n".join(_paragraph(one, standings[one.release.number]) for one in reversed(chain.releases))


def _paragraph(one: Released, standing: Standing) -> str:
    about = one.release
    until = f" until {about.expires} (temporary)" if about.expires else ""
    lines = [
        f"revision {about.number}: {standing}",
        f"  released {about.date}, in force from {about.effective}{until}",
        f"  written by {about.author}: {about.reason}",
        *(f"  approved by {a.by} on {a.date}{_with(a.remark, a.accepted)}" for a in one.approvals),
        *(f"  accepted by {a.by} on {a.date}: {a.difference}: {a.reason}" for a in about.answers),
        f"  identity {about.identity}",
    ]
    return "\n".join(lines)


def _with(remark: str, accepted: tuple[str, ...]) -> str:
    counted = f", with {len(accepted)} difference{'' if len(accepted) == 1 else 's'}" if accepted else ""
    return counted + (f": {remark}" if remark else "")


def history_json(chain: Chain, standings: Mapping[int, Standing]) -> str:
    """The same as one JSON object, the oldest revision first."""
    return json_text(
        {
            "station": chain.station,
            "revisions": [
                {
                    "number": one.release.number,
                    "standing": str(standings[one.release.number]),
                    "date": one.release.date,
                    "effective": one.release.effective,
                    "expires": one.release.expires or None,
                    "author": one.release.author,
                    "reason": one.release.reason,
                    "identity": one.release.identity,
                    "approvals": [
                        {"by": a.by, "date": a.date, "remark": a.remark, "accepted": list(a.accepted)}
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
