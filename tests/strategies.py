"""Holds drawn at random, in the author's own syntax: single and twin rows, 1 to 8 bays deep each way.

The hold is built as the data of its YAML file and goes through `load`, so that what is drawn is what an
author could write. Restraints are drawn from all the kinds that the machine knows, and from all ways in
which they can be combined with controls, power, panels, guides and interlocks.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import partial
from typing import Any

import yaml
from hypothesis import strategies as st

from procgen.diagnostics import Severity
from procgen.model.hold import Hold
from procgen.model.unit import UnitType
from tests.support import FLEET, load_texts

Draw = Callable[[st.SearchStrategy[Any]], Any]
Data = dict[str, Any]

PITCH = 1.6
"""Metres from one bay to the next."""


class _Plain(yaml.SafeDumper):
    """Writes every value out: our subset of YAML has no aliases."""

    def ignore_aliases(self, data: object) -> bool:
        return True


_NO_HAZARDS = "hazards: {}\nchecks: {}\nreports: {}\n"


@dataclass(frozen=True)
class GeneratedHold:
    """A hold that was drawn: its text, its record, and the unit types of the fleet that goes with it."""

    text: str
    hold: Hold
    unit_types: Mapping[str, UnitType]


@dataclass
class _Drawing:
    """A hold on its way."""

    draw: Draw
    has_power: bool
    panel: str | None
    has_narrow: bool = False
    has_one_way: bool = False
    controls: Data = field(default_factory=dict)
    restraints: Data = field(default_factory=dict)
    drives: Data = field(default_factory=dict)
    held_by: dict[str, list[str]] = field(default_factory=dict)

    def chance(self, percent: int) -> bool:
        """True about so often; false when shrunk."""
        return bool(self.draw(st.integers(0, 99)) >= 100 - percent)

    def pick(self, *choices: Any) -> Any:
        """One of these; the first when shrunk."""
        return self.draw(st.sampled_from(choices))

    def control(self, name: str, positions: list[str], **more: Any) -> None:
        """Add a control, behind the panel or not."""
        self.controls[name] = {
            "name": name.replace("-", " "),
            "kind": "switch",
            "positions": positions,
            **more,
        }
        if self.panel is not None and self.chance(70):
            self.controls[name]["behind"] = self.panel

    def narrow(self) -> Data:
        """Now and then a position that takes low units or one contour only."""
        if not self.has_narrow or not self.chance(25):
            return {}
        return dict(self.pick({"height": "1.2 m"}, {"contours": ["E"]}, {"contours": ["H"]}))

    def lowering(self, name: str) -> Data:
        """A held control that lowers an item: one of its own, or one that it shares with others."""
        control = self.pick(f"{name}-switch", "common-handle")
        if control not in self.controls:
            held = self.pick({"hold-to-run": True}, {"returns": "when-clear"})
            self.control(control, ["rest", "down"], **held)
            if self.chance(3):
                self.controls[control]["at"] = "inside"
        lowered: Data = {"lowered-by": {control: "down"}}
        if self.has_power and self.chance(40):
            lowered["powered"] = True
        return lowered

    def hand(self, inside: int = 80) -> Data:
        """Moved by hand, mostly from inside."""
        return {"moved-by": "hand", "reached-from": "inside" if self.chance(inside) else "outside"}


def _gate(drawing: _Drawing, name: str, inward: str, outward: str) -> tuple[Data, bool]:
    """A restraint between two bays on a way that leads `inward`; whether it can be up behind a unit."""
    d = drawing
    both = {"stops": [inward, outward]}
    spring = {"returns": "spring"}
    rest = {"at-rest": d.pick("lowered", "raised"), "when-vacant": d.pick("either", "lowered", "raised")}
    down_in, down_out = {"override": [inward]}, {"override": [outward]}
    kinds: list[tuple[int, Callable[[], Data], bool]] = [
        (30, lambda: {"kind": "lock", **both, **d.hand(), **rest}, True),
        (6, lambda: {"kind": "net", **both, **d.hand(), **rest}, True),
        (10, lambda: {"kind": "guide", **both, **down_in, **d.hand(), **spring}, True),
        (6, lambda: {"kind": "guide", **both, **down_out, **d.hand(), **spring}, True),
        (10, lambda: {"kind": "stop", **both, **down_in, **d.lowering(name), **spring}, True),
        (6, lambda: {"kind": "stop", **both, **down_out, **d.lowering(name), **spring}, True),
        (6, lambda: {"kind": "latch", **both, "override": [inward, outward], **spring}, True),
        (6, lambda: {"kind": "latch", **both, **down_in, **d.hand(), **rest}, True),
        (8, lambda: {"kind": "stop", **both, **d.lowering(name)}, True),
        (4, lambda: {"kind": "lock", **both, **d.hand(), **d.lowering(name)}, True),
        (6, lambda: {"kind": "latch", "stops": [outward], **d.hand(), **rest}, True),
    ]
    if d.has_one_way:
        kinds += [
            (6, lambda: {"kind": "latch", **both, **down_in, **spring}, True),
            (3, lambda: {"kind": "latch", **both, **down_in, "when-vacant": "either"}, False),
            (2, lambda: {"kind": "stop", **both, "fixed": True}, True),
        ]
    weighted = [index for index, (weight, _, _) in enumerate(kinds) for _ in range(weight)]
    _, build, can_hold = kinds[d.pick(*weighted)]
    return build(), can_hold


def _gates(drawing: _Drawing, name: str, ends: tuple[str, str], go: tuple[str, str]) -> list[str]:
    """None, one or two restraints between two bays; the names of those that can hold a unit."""
    holding = []
    for index in range(drawing.pick(1, 1, 1, 0, 2)):
        item = f"{name}-{index + 1}"
        data, can_hold = _gate(drawing, item, *go)
        drawing.restraints[item] = {"name": item.replace("-", " "), "between": list(ends), **data}
        if can_hold and drawing.chance(80):
            holding.append(item)
    return holding


def _lane(drawing: _Drawing, row: str, head: str, go: str, depth: int) -> list[str]:
    """The bays of a lane behind a doorway bay, with what stands between them."""
    back = {"forward": "aft", "aft": "forward"}[go]
    bays, before = [head], head
    for index in range(depth):
        bay = f"{go[0]}{index + 1}{row}"
        holding = _gates(drawing, f"gate-{bay}", (before, bay), (go, back))
        drawing.held_by.setdefault(before, []).extend(holding)
        drawing.held_by.setdefault(bay, []).extend(holding)
        bays.append(bay)
        before = bay
    _fixed(drawing, f"end-{go}-{row}".rstrip("-"), bays[-1], go)
    return bays


def _fixed(drawing: _Drawing, name: str, bay: str, stops: str) -> None:
    title = name.replace("-", " ")
    drawing.restraints[name] = {
        "name": title,
        "kind": "stop",
        "beside": [bay],
        "stops": [stops],
        "fixed": True,
    }
    drawing.held_by.setdefault(bay, []).append(name)


def _rails(drawing: _Drawing, bays: list[str]) -> None:
    rails: Data = {"name": "rails", "kind": "rail", "beside": bays, "stops": ["in", "out"], "fixed": True}
    drawing.restraints["rails"] = rails
    for bay in bays:
        drawing.held_by.setdefault(bay, []).append("rails")


def _sill(drawing: _Drawing, near: str) -> None:
    """What stands on the sill: locks moved by hand from outside, stops, or whatever else."""
    d, ends = drawing, ["outside", near]
    both = {"between": ends, "stops": ["in", "out"]}
    for index in range(d.pick(1, 0, 2)):
        name = f"sill-lock-{index + 1}"
        d.restraints[name] = {
            "name": name.replace("-", " "),
            "kind": "lock",
            **both,
            **d.hand(inside=5),
            "at-rest": "raised",
        }
        d.held_by.setdefault(near, []).append(name)
    if d.chance(50):
        stop = {"name": "sill stop", "kind": "stop", **both, "override": ["in"], "returns": "spring"}
        d.restraints["sill-stop"] = {**stop, **d.lowering("sill-stop")}
        d.held_by.setdefault(near, []).append("sill-stop")
    if d.chance(25):
        d.held_by.setdefault(near, []).extend(_gates(d, "inner", ("outside", near), ("in", "out")))


def _share(drawing: _Drawing, far: str) -> None:
    """Let an item that stands elsewhere hold a bay too: a sill lock the inner doorway bay, or any other."""
    d = drawing
    if d.chance(15):
        d.held_by[far].extend(name for name in d.restraints if name.startswith("sill-lock"))
    if d.chance(10):
        raised = [name for name, item in d.restraints.items() if "moved-by" in item]
        if raised:
            d.held_by[d.pick(*d.held_by)].append(d.pick(*raised))
    for bay, items in d.held_by.items():
        d.held_by[bay] = list(dict.fromkeys(items))


def _guides(drawing: _Drawing, near: str, hops: list[list[str]]) -> None:
    """Guides that must be up for some moves: at the doorway, or items that stand elsewhere anyway."""
    d = drawing
    if d.chance(35):
        chosen = [hop for hop in hops[:4] if d.chance(60)] or hops[:1]
        d.restraints["doorway-guide"] = {
            "name": "doorway guide",
            "kind": "guide",
            "beside": [near],
            **d.hand(),
            "at-rest": d.pick("lowered", "raised"),
            "when-vacant": d.pick("either", "lowered", "raised"),
            "guides": chosen,
        }
    for item in list(d.restraints.values()):
        if "between" in item and d.chance(10):
            free = [hop for hop in hops if sorted(hop) != sorted(item["between"])]
            if free:
                item["guides"] = [d.pick(*free)]


def _drive(drawing: _Drawing, ways: list[tuple[str, list[str]]], door_bays: list[str]) -> None:
    """One stick for everything, or one for each way; a way without a drive now and then."""
    d = drawing
    one_stick = d.chance(50)
    if one_stick:
        d.control("stick", ["centre", "in", "out", "forward", "aft"], **{"hold-to-run": True})
    ends = [("door", ["in", "out"], door_bays)]
    ends += [(name, ["forward", "aft"], bays) for name, bays in ways]
    for name, go, under in ends:
        if d.chance(2):
            continue
        stick = "stick" if one_stick else f"{name}-stick"
        if not one_stick:
            d.control(stick, ["centre", *go], **{"hold-to-run": True})
        d.drives[f"{name}-drive"] = {"name": f"{name} drive", "under": under, "run-by": stick, "go": go}


def _bays(rows: list[str], depths: Mapping[str, int], right: bool, doorway: bool) -> Data:
    """Rectangles of all bays; the doorway at x = 0, the row at the door first."""
    bays: Data = {}
    for index, row in enumerate(rows):
        left_edge = (0.0 if len(rows) == 1 else PITCH * (0.5 - index)) * (1 if right else -1) - PITCH / 2
        y = [f"{left_edge:.2f} m", f"{left_edge + PITCH:.2f} m"]
        places = {f"d{row}": 0}
        places |= {f"f{n + 1}{row}": -n - 1 for n in range(depths["forward"])}
        places |= {f"a{n + 1}{row}": n + 1 for n in range(depths["aft"])}
        for name, place in places.items():
            x = [f"{PITCH * place:.2f} m", f"{PITCH * (place + 1):.2f} m"]
            bays[name] = {"x": x, "y": y, "position": doorway or place != 0}
    bays[f"d{rows[0]}"]["door"] = "cargo-door"
    return bays


def _power(drawing: _Drawing) -> Data | None:
    d = drawing
    if not d.has_power:
        return None
    d.control("power-switch", ["off", "on"])
    needs = {name: "lowered" for name in d.restraints if name.startswith("sill-lock") and d.chance(70)}
    if d.chance(8):
        others = [name for name, item in d.restraints.items() if "moved-by" in item]
        needs |= {name: d.pick("lowered", "raised") for name in others[:1]}
    power: Data = {"switch": "power-switch", "on": "on", "off": "off", "needs": needs}
    if d.chance(40):
        power["interlock-moves-while-on"] = False
    return power


def hold_data(draw: Draw, rows: list[str] | None = None) -> Data:
    """What the file of a hold with one door says, containers only; in these rows where they are given."""
    has_power = bool(draw(st.integers(0, 99)) < 85)
    panel = "panel" if draw(st.integers(0, 99)) < 75 else None
    d = _Drawing(draw, has_power, panel)
    d.has_narrow, d.has_one_way = d.chance(8), d.chance(8)
    rows = d.pick([""], ["r", "l"]) if rows is None else rows
    depths = {"forward": d.draw(st.integers(0, 7)), "aft": 0}
    if d.chance(20):
        depths = {"forward": depths["forward"] % 4, "aft": d.draw(st.integers(0, 3))}
    right = d.chance(60)
    doorway = not (depths["forward"] + depths["aft"] and d.chance(20))
    near, far = f"d{rows[0]}", f"d{rows[-1]}"
    bays = _bays(rows, depths, right, doorway)
    _sill(d, near)
    door_bays = list(dict.fromkeys((near, far)))
    if far != near:
        holding = _gates(d, "centre", (near, far), ("in", "out"))
        for bay in door_bays:
            d.held_by.setdefault(bay, []).extend(holding)
    _fixed(d, "far-rail", far, "in")
    _rails(d, list(bays))
    lanes: list[Data] = [{"go": "in", "through": ["outside", *door_bays]}]
    ways = []
    for row in rows:
        for go in ("forward", "aft"):
            through = _lane(d, row, f"d{row}", go, depths[go])
            if len(through) > 1:
                lanes.append({"go": go, "through": through})
                ways.append((f"{go}-lane-{row}".rstrip("-"), through))
    _share(d, far)
    hops = [list(hop) for lane in lanes for hop in zip(lane["through"], lane["through"][1:], strict=False)]
    _guides(d, near, [each for hop in hops for each in (hop, hop[::-1])])
    if has_power:
        _drive(d, ways, door_bays)
    return _assemble(d, bays, lanes, right, _power(d))


def _assemble(d: _Drawing, bays: Data, lanes: list[Data], right: bool, power: Data | None) -> Data:
    near = lanes[0]["through"][1]
    closing = {name: "raised" for name in d.restraints if name.startswith("sill-lock") and d.chance(80)}
    data: Data = {
        "hold": "GEN",
        "title": "generated hold",
        "aircraft": "T-1",
        "demonstration": True,
        "sources": {"WB": {"title": "invented", "issue": "1", "date": "2026-01-01"}},
        "floor": {
            "x": ["-20 m", "20 m"],
            "y": ["-2 m", "2 m"],
            "height": "1.68 m",
            "surface": "roller track",
        },
        "load-factors": {
            **dict.fromkeys(("forward", "aft", "left", "right", "up"), "1.5 g"),
            "kind": "limit",
            "source": "WB 1",
        },
        "doors": {
            "cargo-door": {
                "name": "cargo door",
                "side": "right" if right else "left",
                "x": bays[near]["x"],
                "clear": {"width": "1.72 m", "height": "1.66 m"},
                "sill": "2 m",
                "close-needs": closing,
            }
        },
        "bays": bays,
        "lanes": lanes,
        "restraints": d.restraints,
        "positions": {
            bay: {"held-by": d.held_by[bay], "max": {"K": "1588 kg"}, "source": "WB 2", **d.narrow()}
            for bay, one in bays.items()
            if one["position"]
        },
    }
    if power is not None:
        data["power"] = power
    if d.panel is not None:
        data["panels"] = {
            d.panel: {"name": "control panel door", "at": "inside" if d.chance(5) else "outside"}
        }
    if d.controls:
        data["controls"] = d.controls
    if d.drives:
        data["drives"] = d.drives
    if not d.drives or d.chance(20):
        data["hand-moves"] = _hand_moves(d)
    return data


def _hand_moves(d: _Drawing) -> Data:
    leave = {
        "resistance-starting": "3 %",
        "resistance-moving": "2 %",
        "slope": "1 %",
        "force-starting": "200 N",
        "force-moving": "100 N",
        "source": "WB 8",
    }
    return {**leave, "max-mass": "1000 kg"} if d.chance(5) else leave


def built(data: Data, fleet: str = FLEET) -> GeneratedHold:
    """The hold that a file's data describes; an assertion fails where the file is not in order."""
    text = yaml.dump(data, Dumper=_Plain, sort_keys=False, width=100)
    loaded = load_texts({"fleet/fleet.yaml": fleet, "fleet/holds/GEN.yaml": text}, hazards=_NO_HAZARDS)
    errors = [finding for finding in loaded.findings if finding.severity is Severity.ERROR]
    assert not errors, (errors, text)
    return GeneratedHold(text, loaded.network.holds["GEN"], loaded.network.unit_types)


@st.composite
def holds(draw: st.DrawFn) -> GeneratedHold:
    """A valid hold of any kind."""
    return built(hold_data(partial(draw)))
