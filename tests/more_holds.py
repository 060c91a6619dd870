"""Holds drawn at random of every kind that there is: those of `strategies` with more built on.

Pallets across both rows of containers, a second door, bulk sections behind nets (with a door of their own
or not), positions of two lengths; each drawn or not, so that they come together too.
"""

from __future__ import annotations

from functools import partial
from itertools import pairwise
from typing import Any

from hypothesis import strategies as st

from tests.strategies import PITCH, Data, Draw, GeneratedHold, built, hold_data

LONG = 2.0
"""Metres from one bay to the next where the bays are long."""
FLEET = """\
airline: Test Air (invented)
demonstration: true
aircraft:
  T-1: {title: Test type}
sources:
  ULD: {title: Unit load device data (invented), issue: "1", date: "2026-01-01"}
bases:
  K: {length: 1534 mm, width: 1562 mm, source: ULD 2}
  W: {length: 1900 mm, width: 1562 mm, source: ULD 2}
  P: {length: 1534 mm, width: 3100 mm, source: ULD 2}
unit-types:
  AKE: {title: box, base: K, height: 1626 mm, contour: E, max-gross: 1588 kg, tare: 82 kg, source: ULD 3-1}
  AKH: {title: low, base: K, height: 1143 mm, contour: H, max-gross: 1134 kg, tare: 79 kg, source: ULD 3-2}
  AWL: {title: long, base: W, height: 1143 mm, contour: H, max-gross: 1588 kg, tare: 90 kg, source: ULD 3-3}
  PKC: {title: pallet, base: P, height: 1143 mm, contour: H, max-gross: 3000 kg, tare: 90 kg, source: ULD 3-4}
  BLK: {title: loose bags, loose: true, max-gross: 1000 kg, source: ULD 3-5}
"""


def _chance(draw: Draw, percent: int) -> bool:
    return bool(draw(st.integers(0, 99)) >= 100 - percent)


def _hand(draw: Draw, kind: str, between: list[str], **more: Any) -> Data:
    """A lock or net that a person inside moves."""
    return {
        "name": f"{kind} {' '.join(between)}",
        "kind": kind,
        "between": between,
        "moved-by": "hand",
        "reached-from": "inside",
        "at-rest": draw(st.sampled_from(["lowered", "raised"])),
        "when-vacant": draw(st.sampled_from(["either", "lowered", "raised"])),
        **more,
    }


def _place(name: str) -> str:
    """The place of a bay along the hold: `f2` for `f2r`, `d` for `dl`."""
    return name.rstrip("rl") or name


def _add_pallets(draw: Draw, data: Data) -> None:
    """Bays across both rows, at the doorway and behind it as far as both rows go."""
    bays, held = data["bays"], {name: one["held-by"] for name, one in data["positions"].items()}
    places = [_place(name) for name in bays if name.endswith("r") and _place(name) + "l" in bays]
    door = next(one["door"] for one in bays.values() if "door" in one)
    for place in places:
        right, left = bays[f"{place}r"], bays[f"{place}l"]
        edges = sorted((*right["y"], *left["y"]), key=lambda text: float(text.split()[0]))
        is_position = place != "d" or _chance(draw, 70)
        bays[f"{place}p"] = {"x": right["x"], "y": [edges[0], edges[-1]], "position": is_position}
        if place != "d" and _chance(draw, 50):
            lock = _hand(draw, "lock", [f"{place}r", f"{place}l"])
            lock["beside"] = lock.pop("between")
            lock["when-vacant"] = draw(st.sampled_from(["either", "lowered"]))
            data["restraints"][f"centre-{place}"] = {**lock, "stops": ["in", "out"]}
            for row in "rl":
                held.get(f"{place}{row}", []).append(f"centre-{place}")
    bays["dp"]["door"] = door
    lanes: list[tuple[str, list[str]]] = [("in", ["outside", "dp"])]
    for go in ("forward", "aft"):
        through = ["dp", *(f"{place}p" for place in places if place[0] == go[0])]
        lanes += [(go, through)] if len(through) > 1 else []
    data["lanes"] += [{"go": go, "through": through} for go, through in lanes]
    for place in places:
        if bays[f"{place}p"]["position"]:
            holding = [item for row in "rl" for item in held.get(f"{place}{row}", ())]
            holding = [item for item in dict.fromkeys(holding) if not item.startswith(("centre", "rails"))]
            data["positions"][f"{place}p"] = {
                "held-by": ["rails", *holding],
                "max": {"P": "3000 kg"},
                "source": "WB 2",
            }
    _add_drive(draw, data, "pallet", [f"{place}p" for place in places], ["in", "out", "forward", "aft"])


def _add_drive(draw: Draw, data: Data, name: str, under: list[str], go: list[str]) -> None:
    if not data.get("drives"):
        return
    stick = {"name": f"{name} stick", "kind": "stick", "positions": ["centre", *go], "hold-to-run": True}
    data["controls"][f"{name}-stick"] = stick
    data["drives"][f"{name}-drive"] = {
        "name": f"{name} drive",
        "under": under,
        "run-by": f"{name}-stick",
        "go": go,
    }


def _add_door(draw: Draw, data: Data, bay: str, **bays: Any) -> None:
    """A second door at a bay, on the side of the first, with a sill lock of its own."""
    first = next(iter(data["doors"].values()))
    needs = {"second-sill-lock": "raised"} if _chance(draw, 70) else {}
    x = data["bays"][bay]["x"]
    data["doors"]["second-door"] = {**first, "name": "second door", "x": x, "close-needs": needs}
    data["bays"][bay]["door"] = "second-door"
    data["lanes"].append({"go": "in", "through": ["outside", bay]})
    data["restraints"]["second-sill-lock"] = {
        "name": "second sill lock",
        "kind": "lock",
        "between": ["outside", bay],
        "stops": ["in", "out"],
        "moved-by": "hand",
        "reached-from": "outside",
        "at-rest": "raised",
    }
    if bay in data["positions"]:
        data["positions"][bay]["held-by"].append("second-sill-lock")


def _add_bulk(draw: Draw, data: Data, near: str, has_door: bool) -> None:
    """Bulk sections aft of everything, reached past the container doorway or through a door of their own."""
    y = data["bays"][near]["y"]
    count = draw(st.integers(1, 3))
    names = [f"s{index + 1}" for index in range(count)]
    behind = max(float(one["x"][1].split()[0]) for one in data["bays"].values())
    for index, name in enumerate(names):
        x = [f"{behind + PITCH * index:.2f} m", f"{behind + PITCH * (index + 1):.2f} m"]
        data["bays"][name] = {"x": x, "y": y, "position": True, "bulk": True}
    last = max(
        (name for name in data["bays"] if name not in names and data["bays"][name]["y"] == y),
        key=lambda name: float(data["bays"][name]["x"][1].split()[0]),
    )
    through = names if has_door else [last, *names]
    if has_door:
        _add_door(draw, data, names[0])
    held: dict[str, list[str]] = {name: ["rails"] for name in names}
    for one, other in pairwise(through):
        if _chance(draw, 80):
            net = f"net-{other}"
            data["restraints"][net] = _hand(draw, "net", [one, other], stops=["forward", "aft"])
            for bay in (one, other):
                if bay in held and _chance(draw, 80):
                    held[bay].append(net)
    data["restraints"]["rails"]["beside"] = [*data["restraints"]["rails"]["beside"], *names]
    if len(through) > 1:
        data["lanes"].append({"go": "aft", "through": through})
    for name in names:
        data["positions"][name] = {"held-by": held[name], "max": {"BLK": "900 kg"}, "source": "WB 2"}


def _stretch(draw: Draw, data: Data) -> None:
    """Make the bays at some places longer, so that a longer type fits there and nowhere else."""
    starts = sorted({round(float(one["x"][0].split()[0]) / PITCH) for one in data["bays"].values()})
    lengths = {start: draw(st.sampled_from([PITCH, LONG])) for start in starts}
    at, edges = starts[0] * PITCH, {}
    for start in starts:
        edges[start] = [f"{at:.2f} m", f"{at + lengths[start]:.2f} m"]
        at += lengths[start]
    for one in data["bays"].values():
        one["x"] = edges[round(float(one["x"][0].split()[0]) / PITCH)]
    for door in data["doors"].values():
        door["clear"]["width"] = "2.10 m"
    door_bay = next(one for one in data["bays"].values() if "door" in one)
    data["doors"]["cargo-door"]["x"] = door_bay["x"]
    for one in data["positions"].values():
        if "K" in one["max"]:
            one["max"] = {**one["max"], "W": "1588 kg"}


def _data(draw: Draw, kind: str) -> Data:
    data = hold_data(draw, rows=["r", "l"] if kind == "pallets" else None)
    near = next(name for name, one in data["bays"].items() if "door" in one)
    depth = [name for name in data["bays"] if name.startswith("f") and name.endswith(near[1:])]
    if _chance(draw, 40):
        _stretch(draw, data)
    if near == "dr" and (kind == "pallets" or _chance(draw, 40)):
        _add_pallets(draw, data)
    choice = ["bulk", "bulk door"] if kind == "bulk" else ["none", "door", "bulk", "bulk door"]
    second = "door" if kind == "two doors" else draw(st.sampled_from(choice))
    if second.startswith("bulk"):
        _add_bulk(draw, data, near, second == "bulk door")
    elif second == "door" and depth:
        _add_door(draw, data, depth[-1])
        _add_drive(draw, data, "second", [depth[-1]], ["in", "out"])
    if kind == "by hand":
        _without_power(data)
    return data


def _without_power(data: Data) -> None:
    """Take the drives and the power away: everything is pushed."""
    for key in ("drives", "power"):
        data.pop(key, None)
    data.get("controls", {}).pop("power-switch", None)
    for item in data["restraints"].values():
        item.pop("powered", None)
    data["hand-moves"] = {
        "resistance-starting": "3 %",
        "resistance-moving": "2 %",
        "slope": "1 %",
        "force-starting": "200 N",
        "force-moving": "100 N",
        "source": "WB 8",
    }


KINDS = ("pallets", "two doors", "bulk", "by hand")
"""What a hold drawn here can be asked to be; it may be more than that."""


@st.composite
def any_holds(draw: st.DrawFn, kind: str = "") -> GeneratedHold:
    """A valid hold of any kind, or of one of `KINDS`: containers, pallets, loose loads, one door or two."""
    return built(_data(partial(draw), kind), FLEET)
