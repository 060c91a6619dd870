"""Release: canonical records and the chain of a station's revisions."""

from __future__ import annotations

from procgen.release.codec import RecordError
from procgen.release.record import identity, read_record, record_text, sha256

__all__ = ["RecordError", "identity", "read_record", "record_text", "sha256"]
