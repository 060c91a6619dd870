"""Release: canonical records and the chain of a station's revisions."""

from __future__ import annotations

from procgen.release import chain as _chain
from procgen.release import standing as _standing
from procgen.release.adding import Addition, approval_added, previous_of, release_added
from procgen.release.chain import all_gone, chains, read_chain, waiting
from procgen.release.codec import RecordError
from procgen.release.files import LIST_FILE
from procgen.release.gate import Owing, Review, Unfit, review, same_person, unfit
from procgen.release.record import identity, read_record, record_text, sha256
from procgen.release.standing import EXPIRED_RULE, check_dates, in_force, standings

RULES = {**_chain.RULES, **_standing.RULES}
"""Every rule that this stage can find broken, with its meaning in one line."""

__all__ = [
    "EXPIRED_RULE",
    "LIST_FILE",
    "RULES",
    "Addition",
    "Owing",
    "RecordError",
    "Review",
    "Unfit",
    "all_gone",
    "approval_added",
    "chains",
    "check_dates",
    "identity",
    "in_force",
    "previous_of",
    "read_chain",
    "read_record",
    "record_text",
    "release_added",
    "review",
    "same_person",
    "sha256",
    "standings",
    "unfit",
    "waiting",
]
