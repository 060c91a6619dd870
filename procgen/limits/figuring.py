"""Where figures come from: the sources and places of the numbers they were reckoned from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from procgen.diagnostics import NOWHERE, Place
from procgen.limits.shown import shown
from procgen.model.stated import SourceRef, Stated
from procgen.results.figures import Figure, Other
from procgen.units import Quantity


@dataclass(frozen=True, slots=True)
class Cap:
    """One thing that limits a number: what it is called, its value, how it comes about, from what."""

    title: str
    mass: Quantity
    reckoning: str
    stated: tuple[Stated, ...]


def whence(
    stated: Iterable[Stated], otherwise: Place = NOWHERE
) -> tuple[tuple[SourceRef, ...], tuple[Place, ...]]:
    """The sources and the places of stated numbers, each once; `otherwise` for one without a place."""
    numbers = list(stated)
    sources = dict.fromkeys(one.source for one in numbers if one.source is not None)
    places = dict.fromkeys(one.place if one.place != NOWHERE else otherwise for one in numbers)
    return tuple(sources), tuple(place for place in places if place != NOWHERE)


def least_of(
    caps: Sequence[Cap], decimals: int = 0, why_none: str = "nothing in the data limits it"
) -> Figure:
    """The least of several limits as a figure, with all the others; `why_none` where there is none."""
    if not caps:
        return Figure(reasons=(why_none,))
    least, *rest = sorted(caps, key=lambda cap: cap.mass)
    sources, places = whence(least.stated)
    others = tuple(
        Other(cap.title, cap.mass.down(decimals), cap.reckoning, *whence(cap.stated)) for cap in rest
    )
    return Figure(
        number=least.mass,
        decimals=decimals,
        governs=least.title,
        reckoning=least.reckoning,
        others=others,
        sources=sources,
        places=places,
    )


def stated_figure(stated: Stated, decimals: int = 0) -> Figure:
    """A number as it was stated."""
    sources, places = whence([stated])
    return Figure(
        number=stated.quantity,
        decimals=decimals,
        reckoning=f"stated: {stated.quantity.written or shown(stated.quantity)}",
        sources=sources,
        places=places,
    )
