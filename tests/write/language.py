"""What the tests count as a sentence, a word, a doubtful modal."""

from __future__ import annotations

import re

MODALS = re.compile(r"\b(should|shall|may|might|could|would|need to|ought|try to)\b", re.IGNORECASE)
"""Words that leave open whether something is to be done (common practice of technical writing, no source)."""

_PAINTED = re.compile(r"(?:the )?\*\*[^*]+\*\*")
_LIST = re.compile(r"ITEM(?:, ITEM)*(?: and ITEM)?")
_ENDS = re.compile(r"(?<=[.?!])\s+|(?<=[.?!]”)\s+")


def sentences(text: str) -> list[str]:
    """The sentences of a text."""
    return [sentence for sentence in _ENDS.split(text) if sentence]


def words(sentence: str) -> int:
    """How many words a reader reads; a painted name counts as one, and so does a list of them."""
    return len(_LIST.sub("ITEM", _PAINTED.sub("ITEM", sentence)).split())


def condition_after_action(sentence: str) -> bool:
    """Whether an instruction names its condition after the action it governs (`until` ends an action)."""
    doing = not re.match(r"(?:\W*)(?:Done|If|When|Where|Later)\b", sentence)
    return doing and re.search(r"[a-z]\W* (?:if|when) ", sentence) is not None
