"""What the out-of-service matrix says of one position, in full."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diff.derived import as_they_stood, texts_of
from procgen.results.matrix import Answer
from procgen.results.page import ItemAnswer, PageWarning
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class ToldCell:
    """What is said of one position, by itself: texts and the procedure in full instead of by number.

    `texts` are those of the steps left out and put in, of why it is not usable, and of why only alone.
    `warnings` are those of its procedure by their hazard, `procedure` is all else that it says.
    `whole` is what the position may carry of each unit type with everything in service, None for nothing.
    """

    answer: ItemAnswer
    texts: tuple[tuple[str, ...], ...]
    warnings: Mapping[str, PageWarning]
    procedure: tuple[str, ...]
    whole: Mapping[str, Quantity | None] = field(default_factory=dict)

    @property
    def worst(self) -> Answer:
        """The gravest of what is true of it."""
        return self.answer.answers[-1]

    @property
    def usable(self) -> bool:
        """Whether it can be worked at all."""
        return self.worst is not Answer.NOT_USABLE

    @property
    def only_alone(self) -> bool:
        """Whether it can be worked with all other positions empty only."""
        return self.usable and bool(self.answer.only_alone)


def said_of(told: ToldCell) -> str:
    """All that is said of a position, in one line; a procedure by a sum over what it says."""
    answer = told.answer
    parts = [", ".join(str(one).replace("-", " ") for one in answer.answers)]
    if answer.crew:
        parts.append(f"with {answer.crew} people")
    for limit in answer.limits:
        most = "none" if limit.now is None else f"at most {limit.now.down()} ({limit.governs})"
        parts.append(f"{limit.unit_type} {most} instead of {limit.was.down()}")
    names = ("without:", "with:", "because", "only alone:")
    texts = (" ".join(as_they_stood(some)) for some in told.texts)
    parts += [f"{name} {text}" for name, text in zip(names, texts, strict=True) if text]
    if told.procedure:
        said = repr(as_they_stood([*texts_of(list(told.warnings.values())), *told.procedure]))
        digest = hashlib.sha256(said.encode("utf-8", "surrogateescape")).hexdigest()[:12]
        parts.append(f"by procedure {digest}")
    return ", ".join(parts)
