"""The rules of reading and loading, each in one line. Their pages are in `procgen/data/rules`."""

from __future__ import annotations

from collections.abc import Mapping

READING: Mapping[str, str] = {
    "ambiguous-plain-value": "A plain word or number that some readers of YAML take for something else.",
    "duplicate-key": "The same key stands twice in one place.",
    "empty-file": "A file holds nothing.",
    "key-not-text": "A key is a number, `true`, nothing, a list or a mapping.",
    "yaml-feature": "An anchor, alias, tag, merge key or second document: YAML that we do not use.",
    "yaml-syntax": "The text is not YAML.",
}
"""Found in the text, before anything is known of what it describes."""

SHAPE: Mapping[str, str] = {
    "bad-name": "A name has other characters than letters, digits and single hyphens.",
    "missing-key": "A key that must be there is not.",
    "missing-value": "A key has nothing, or an empty text or mapping, behind it.",
    "number-too-small": "A whole number is below the least that makes sense.",
    "two-verbs-in-step": "One step does two things.",
    "unknown-key": "A key that is not known there.",
    "unknown-verb": "A step's verb is not known.",
    "unknown-word": "A word that is not in the closed list of words for its key.",
    "wrong-count": "A list or mapping has too few or too many entries.",
    "wrong-type": "A value is text, a number, a list or a mapping where another of these belongs.",
}
"""Found by comparing a document with its schema."""

VALUES: Mapping[str, str] = {
    "bad-date": "A date is not a day of the calendar written as year, month, day.",
    "ends-in-two-units": "The two ends of an interval are written in different units.",
    "interval-reversed": "The two ends of an interval are equal or in the wrong order.",
    "limit-without-source": "A number that limits something names no document.",
    "not-a-quantity": "A text or value where a quantity belongs is no number with a unit.",
    "points-out-of-order": "The points of a limit or the corners of an outline are not in order.",
    "quantity-not-positive": "A size, mass, speed or force is zero or less.",
    "quantity-without-unit": "A number stands without unit where a quantity belongs.",
    "source-without-page": "A source names a document but no page or section in it.",
    "unknown-unit": "A unit that is not known.",
    "wrong-dimension": "A quantity has a unit of another dimension.",
}
"""Found in single values."""

NAMES: Mapping[str, str] = {
    "bay-given-twice": "A procedure gives one bay to two units.",
    "demonstration-unmarked": "The fleet is a demonstration, but a hold is not marked as one.",
    "file-missing": "A file that others need is not there.",
    "file-not-read": "A file stands where nothing reads it.",
    "listed-twice": "A list names the same thing twice.",
    "name-differs-from-file": "A hold or station is not called like its file or folder.",
    "name-used-twice": "One name is given to two things.",
    "position-not-described": "A bay is marked as a position, but `positions` does not describe it.",
    "position-not-marked": "`positions` describes a bay that is not marked as a position.",
    "reserved-name": "Something is called `outside`.",
    "unknown-control-position": "A control has no such position.",
    "unknown-name": "A name that nothing carries.",
}
"""Found by following names, within a file and from one to another."""

MEANING: Mapping[str, str] = {
    "contradicting-keys": "Two keys of one thing cannot both be true.",
    "impossible-failure": "An item is said to be out of service in a way in which it cannot fail.",
    "lane-passes-twice": "A lane passes the same bay twice.",
    "nothing-moves-it": "Nothing moves a restraint, and it is not fixed.",
    "outside-in-mid-lane": "A lane leads to `outside` instead of starting there.",
    "works-at-rest": "A drive or restraint is worked by the rest position of its control.",
}
"""Found in one description that contradicts itself."""

CONTROL: Mapping[str, str] = {
    "revision-beside-releases": "A station that has released its manual still states a revision by hand.",
}
"""Found where descriptions meet releases."""

RULES: Mapping[str, str] = {**READING, **SHAPE, **VALUES, **NAMES, **MEANING, **CONTROL}
"""Every rule that reading and loading can find, with its meaning in one line."""
