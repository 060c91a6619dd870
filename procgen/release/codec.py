"""What writing and reading records share: JSON data, its canonical text, the table of lines."""

from __future__ import annotations

import json
from dataclasses import dataclass, field

Json = None | bool | int | str | list["Json"] | dict[str, "Json"]

CLASS = "is"
"""The key that names the class where there is a choice."""

LINES = "lines"
"""The key of markup kept as runs of lines, and of the table of those lines."""


class RecordError(ValueError):
    """A document that is no record of a format we read: what is wrong, and where in it."""

    def __init__(self, message: str, where: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.message = message
        self.where = where

    def __str__(self) -> str:
        return f"{'/'.join(self.where)}: {self.message}" if self.where else self.message


def canonical(data: Json) -> str:
    """The one text of JSON data: keys sorted, no spaces, nothing escaped that need not be."""
    return json.dumps(data, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def parsed(text: str) -> Json:
    """The data of a canonical text. Raises `RecordError` where the text is not canonical JSON."""
    try:
        data: Json = json.loads(text, parse_float=_refuse, parse_constant=_refuse)
    except RecordError:
        raise
    except (ValueError, RecursionError) as error:
        raise RecordError(f"not JSON: {error}") from error
    if canonical(data) + "\n" != text:
        raise RecordError("not the canonical text of what it says")
    return data


def _refuse(text: str) -> Json:
    raise RecordError(f"{text} is no exact number")


def shown(data: Json) -> str:
    """Data as messages show it, cut where it is long."""
    text = canonical(data)
    return text if len(text) <= 60 else f"{text[:60]}…"


def listed(data: Json, length: int | None = None) -> list[Json]:
    """Data that must be a list, of one length where that is given. Raises `RecordError`."""
    if not isinstance(data, list) or (length is not None and len(data) != length):
        raise RecordError(f"{shown(data)} is no list" + (f" of {length}" if length is not None else ""))
    return data


def whole(data: Json) -> int:
    """Data that must be a whole number. Raises `RecordError`."""
    if type(data) is not int:
        raise RecordError(f"{shown(data)} is no whole number")
    return data


@dataclass
class LineTable:
    """The lines that markup is made of, each once, in the order of their first use."""

    lines: list[str] = field(default_factory=list)
    _numbers: dict[str, int] = field(default_factory=dict)

    def runs(self, text: str) -> list[Json]:
        """A text as runs of lines: [first, how many]."""
        runs: list[list[int]] = []
        for line in text.split("\n"):
            number = self._numbers.setdefault(line, len(self.lines))
            if number == len(self.lines):
                self.lines.append(line)
            if runs and runs[-1][0] + runs[-1][1] == number:
                runs[-1][1] += 1
            else:
                runs.append([number, 1])
        return [[first, count] for first, count in runs]

    def text(self, runs: Json) -> str:
        """The text that runs stand for. Raises `RecordError` where they lead out of the table."""
        found: list[str] = []
        for run in listed(runs):
            first, count = (whole(one) for one in listed(run, 2))
            if first < 0 or count < 1 or first + count > len(self.lines):
                raise RecordError(f"there are no lines {first} to {first + count - 1}")
            found += self.lines[first : first + count]
        return "\n".join(found)
