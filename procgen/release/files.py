"""The files of a chain: releases, approvals and the list of both, as canonical text and back."""

from __future__ import annotations

import json
import re
from typing import TypeVar

from procgen.release.codec import Json, LineTable, RecordError, canonical, parsed
from procgen.release.decoding import decode
from procgen.release.encoding import encode
from procgen.results.release import Approval, Release, ReleaseList

FOLDER = "releases"
"""The folder beside a station's description that holds its releases."""

LIST_FILE = "list.json"
"""The list of a station's releases and approvals."""

_FORMAT = 1
_RELEASE = re.compile(r"([0-9]{3,})\.json")
_APPROVAL = re.compile(r"([0-9]{3,})\.approval-([1-9][0-9]*)\.json")

T = TypeVar("T")


def release_file(number: int) -> str:
    """The name of a release's file."""
    return f"{number:03}.json"


def approval_file(number: int, nth: int) -> str:
    """The name of the file of the nth approval of a release."""
    return f"{number:03}.approval-{nth}.json"


def release_number(name: str) -> int | None:
    """The number of the release that a file of this name holds; None for other names."""
    match = _RELEASE.fullmatch(name)
    return int(match[1]) if match and release_file(int(match[1])) == name else None


def approval_numbers(name: str) -> tuple[int, int] | None:
    """The release that a file of this name approves, and how many there are with it; None for other names."""
    match = _APPROVAL.fullmatch(name)
    numbers = (int(match[1]), int(match[2])) if match else None
    return numbers if numbers and approval_file(*numbers) == name else None


def release_text(release: Release, record: str) -> str:
    """The canonical text of a release around the canonical text of its record."""
    return _text("release", encode(release, Release, LineTable()), record=json.loads(record))


def read_release(text: str) -> tuple[Release, str]:
    """A release and the text of its record. Raises `RecordError` where the text is not such a file."""
    data = _whole(text, "release", "record")
    return _decoded(data["release"], Release), canonical(data["record"]) + "\n"


def approval_text(approval: Approval) -> str:
    """The canonical text of an approval."""
    return _text("approval", encode(approval, Approval, LineTable()))


def read_approval(text: str) -> Approval:
    """An approval. Raises `RecordError` where the text is no such file."""
    return _decoded(_whole(text, "approval")["approval"], Approval)


def list_text(listed: ReleaseList) -> str:
    """The canonical text of the list of a chain's files."""
    return _text("list", encode(listed, ReleaseList, LineTable()))


def read_list(text: str) -> ReleaseList:
    """The list of a chain's files. Raises `RecordError` where the text is no such file."""
    return _decoded(_whole(text, "list")["list"], ReleaseList)


def _text(key: str, data: Json, **more: Json) -> str:
    return canonical({"chain": _FORMAT, key: data, **more}) + "\n"


def _whole(text: str, *keys: str) -> dict[str, Json]:
    data = parsed(text)
    if not isinstance(data, dict) or set(data) != {"chain", *keys}:
        raise RecordError(f"not a file of this kind: it holds “chain” and {' and '.join(keys)}")
    if data["chain"] != _FORMAT:
        raise RecordError(f"form {data['chain']} is not one we read (we read {_FORMAT})")
    return data


def _decoded(data: Json, kind: type[T]) -> T:
    found: T = decode(data, kind, LineTable())
    return found
