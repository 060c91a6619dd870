"""What the columns of a folded cycle are called."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from procgen.model.hold import Hold
from procgen.write import phrases
from procgen.write.alike import Column


def labels(columns: Sequence[Column], hold: Hold) -> tuple[str, ...]:
    """A word or two for each column, no two alike."""
    found = [_label(column, hold) for column in columns]
    count = Counter(found)
    seen: Counter[str] = Counter()
    result = []
    for label in found:
        seen[label] += 1
        result.append(
            phrases.LABEL_OF_SEVERAL.format(number=seen[label], label=label) if count[label] > 1 else label
        )
    return tuple(result)


def titles(hold: Hold) -> dict[str, str]:
    """What each thing of the hold is, by its painted name."""
    kinds = {door.title: phrases.LABEL_DOOR for door in hold.doors.values()}
    kinds |= {panel.title: phrases.LABEL_PANEL for panel in hold.panels.values()}
    kinds |= {control.title: str(control.kind) for control in hold.controls.values()}
    kinds |= {item.title: str(item.kind) for item in hold.restraints.values()}
    kinds |= dict.fromkeys(hold.bays, phrases.LABEL_POSITION)
    return kinds


def _label(column: Column, hold: Hold) -> str:
    if column.touched:
        return phrases.LABEL_TOUCHED
    names = [name.removeprefix("the ").strip("*") for name in column.names]
    known = titles(hold)
    kinds = {known.get(name, phrases.LABEL_UNIT) for name in names}
    if kinds & {phrases.LABEL_POSITION, phrases.LABEL_UNIT}:
        return kinds.pop() if len(kinds) == 1 else phrases.LABEL_NAME
    return _shared([name.split() for name in names]) or (
        kinds.pop() if len(kinds) == 1 else phrases.LABEL_ITEM
    )


def _shared(names: Sequence[Sequence[str]]) -> str:
    """The words that the names end with alike, or that numbered names begin with alike."""
    ending = _common([list(reversed(name)) for name in names])
    if ending:
        return " ".join(reversed(ending))
    beginning = _common(names)
    numbered = all(any(c.isdigit() for c in word) for name in names for word in name[len(beginning) :])
    return " ".join(beginning) if numbered else ""


def _common(names: Sequence[Sequence[str]]) -> list[str]:
    shared: list[str] = []
    for across in zip(*names, strict=False):
        if len(set(across)) > 1:
            break
        shared.append(across[0])
    return shared
