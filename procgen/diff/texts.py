"""Two texts compared by what they say: how a quantity is written and which unit it is in do not count."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Self

from procgen.results.difference import DifferenceClass, NumberChange
from procgen.units import UNITS, Quantity


class Renamed(str):
    """An old text read with new names; `before` is how it stood."""

    before: str

    def __new__(cls, text: str, before: str) -> Self:
        """The text with new names, and the one without."""
        made = super().__new__(cls, text)
        made.before = before
        return made


_UNIT = "|".join(re.escape(symbol) for symbol in sorted(UNITS, key=len, reverse=True))
_SPACE = "[ \u00a0\u202f]"
_AMOUNT = re.compile(
    rf"(?<![\w.,])(?P<number>-?[0-9]{{1,3}}(?:{_SPACE}[0-9]{{3}})+(?:\.[0-9]+)?|-?[0-9]+(?:\.[0-9]+)?)"
    rf"(?:{_SPACE}?(?P<unit>{_UNIT})(?![\w/]))?"
)
_NAME = re.compile(r"\*\*(.+?)\*\*")
_DENIALS = re.compile(r"\b(?:not|no|never|nobody|none|nothing|only|must|without|unless|until|before|after)\b")
_DEMANDS = re.compile(r"\b(?:at least|minimum|no less|not less|or more)\b")


@dataclass(frozen=True, slots=True)
class TextChange:
    """How a text differs: the class of it and why."""

    classed: DifferenceClass
    why: str
    was: Quantity | None = None
    now: Quantity | None = None


def compare_texts(was: str, now: str, names: Collection[str] = ()) -> TextChange | None:
    """None where both say the same.

    `names` are the words that stand for things of the hold. A text that loses one of them, gains or loses a
    word of denial, or in which a number rose counts as loosened: the action may be another.
    """
    if was == now:
        return None
    if isinstance(was, Renamed):
        if was.before == now:
            return None
        # Before another name another article may stand.
        was, now = _without_articles(was), _without_articles(now)
        if was == now:
            return None
    if _NAME.sub("*", was) == _NAME.sub("*", now) and sorted(_NAME.findall(was)) == sorted(
        _NAME.findall(now)
    ):
        return TextChange(DifferenceClass.WORDING, "the same things in another order")
    was_words, was_amounts = _parted(was)
    now_words, now_amounts = _parted(now)
    if was_words == now_words and len(was_amounts) == len(now_amounts):
        return _amounts(was_words, was_amounts, now_amounts)
    loosened = DifferenceClass.LOOSENED
    lost = _named(was, names) - _named(now, names)
    if lost:
        return TextChange(loosened, f"it no longer names {', '.join(sorted(lost))}")
    if sorted(_DENIALS.findall(was.lower())) != sorted(_DENIALS.findall(now.lower())):
        return TextChange(loosened, "a word that forbids or conditions came or went")
    if _values_outside_names(was) != _values_outside_names(now):
        return TextChange(loosened, "the text and a number in it changed")
    if _named(now, names) - _named(was, names):
        return TextChange(DifferenceClass.TIGHTENED, "it names one thing more")
    return TextChange(DifferenceClass.WORDING, "words only")


def unmarked(text: Any) -> Any:
    """A text as it stood; anything else as it is."""
    return text.before if isinstance(text, Renamed) else text


def _without_articles(text: str) -> str:
    plain = re.sub(r"\b[Tt]he (?=\*|\w)", "", text)
    return re.sub(r"(^|[.:“(] ?\**)(\w)", lambda found: found[1] + found[2].lower(), plain)


def changed_amounts(was: str, now: str) -> list[tuple[NumberChange, NumberChange]]:
    """The amounts that differ between two texts, each with the size of its last place shown on either side.

    None where other words differ too, or where a number without unit does.
    """
    was_words, was_amounts = _parted(was)
    now_words, now_amounts = _parted(now)
    if was_words != now_words or len(was_amounts) != len(now_amounts):
        return []
    found: list[tuple[NumberChange, NumberChange]] = []
    for one, other in zip(was_amounts, now_amounts, strict=True):
        if _same(one, other):
            continue
        before, after = _quantity(one), _quantity(other)
        if before is None or after is None:
            return []
        places = (
            Quantity(_last_place(each) / unit.factor, unit)
            for each, unit in ((one, before.unit), (other, after.unit))
        )
        found.append((NumberChange(before, after), NumberChange(*places)))
    return found


def _parted(text: str) -> tuple[str, list[re.Match[str]]]:
    found = list(_AMOUNT.finditer(text))
    return " ".join(_AMOUNT.sub("#", text).split()), found


def _value(found: re.Match[str]) -> tuple[str, Fraction]:
    number = Fraction(re.sub(_SPACE, "", found["number"]))
    unit = UNITS.get(found["unit"] or "")
    return (str(unit.dimension), number * unit.factor) if unit else ("", number)


def _values_outside_names(text: str) -> list[tuple[str, Fraction]]:
    """The numbers in a text, without those that are painted on things."""
    return [_value(one) for one in _parted(_NAME.sub("*", text))[1]]


def _amounts(words: str, was: list[re.Match[str]], now: list[re.Match[str]]) -> TextChange | None:
    pairs = [(one, other) for one, other in zip(was, now, strict=True) if not _same(one, other)]
    if not pairs:
        return None
    first, second = pairs[0]
    both = (_quantity(first), _quantity(second))
    dimensions = [(_value(one)[0], _value(other)[0]) for one, other in pairs]
    if any(one != other for one, other in dimensions):
        return TextChange(DifferenceClass.LOOSENED, "a number in it measures something else")
    rises = [_value(other)[1] > _value(one)[1] for one, other in pairs]
    if any(rises) or _DEMANDS.search(words):
        return TextChange(DifferenceClass.LOOSENED, "a number in it rose or asks for less", *both)
    return TextChange(DifferenceClass.TIGHTENED, "a number in it fell", *both)


def _same(one: re.Match[str], other: re.Match[str]) -> bool:
    """Whether two amounts are the same; in two units they need only agree to what is shown."""
    (dimension, value), (second_dimension, second) = _value(one), _value(other)
    if dimension != second_dimension:
        return False
    if one["unit"] == other["unit"]:
        return value == second
    return abs(value - second) < max(_last_place(one), _last_place(other))


def _last_place(found: re.Match[str]) -> Fraction:
    unit = UNITS.get(found["unit"] or "")
    decimals = len(found["number"].partition(".")[2])
    return Fraction(1, 10**decimals) * (unit.factor if unit else 1)


def _quantity(found: re.Match[str]) -> Quantity | None:
    unit = UNITS.get(found["unit"] or "")
    if unit is None:
        return None
    return Quantity(Fraction(re.sub(_SPACE, "", found["number"])), unit, found.group())


def _named(text: str, names: Collection[str]) -> set[str]:
    bold = set(_NAME.findall(text))
    plain = text.replace("**", "")
    return bold | {name for name in names if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", plain)}
