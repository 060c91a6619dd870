"""Slips of a writer: small edits of clean procedures, with the one rule and the one line to be found.

What is expected is common practice of the trade, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, field

LOCK_41_FROM_OUTSIDE = (
    'between: ["42", "41"]\n    stops: [forward, aft]\n    moved-by: hand\n    reached-from: inside',
    'between: ["42", "41"]\n    stops: [forward, aft]\n    moved-by: hand\n    reached-from: outside',
)
"""Else nobody reaches it past a unit in 42 or 43."""
U41_IN = '  - drive: {unit: u41, hold: {stick: in}, through: [outside, "44"]}\n'
U42_IN = U41_IN.replace("u41", "u42")
U44_IN = U41_IN.replace("u41", "u44")
_ALONG = "  - drive: {unit: uXX, hold: {stick: forward, guide-switch: forward}, through: "
U41_ALONG = _ALONG.replace("uXX", "u41") + '["44", "43", "42", "41"]}\n'
U42_ALONG = _ALONG.replace("uXX", "u42") + '["44", "43", "42"]}\n'
U44_OUT = '  - drive: {unit: u44, hold: {stick: out, sill-handle: down}, through: ["44", outside]}\n'
U41_OUT = U44_OUT.replace("u44", "u41")
U41_AFT = '  - drive: {unit: u41, hold: {stick: aft}, through: ["41", "42", "43", "44"]}\n'
PATH = "  - check: path-clear # for "
POWER_ON = '  - set: {power-switch: "on"}\n'
POWER_OFF = '  - set: {power-switch: "off"}\n'
CLOSE_PANEL = "  - close: control-panel\n"
CLOSE_DOOR = "  - close: aft-door\n"
LOOK = "  - check: {latched: aft-door, by: closer}\n"
LAST_LOOK = "  - check: {latched: aft-door, by: second-person}\n"
HAND_MOVES = (
    "hand-moves: {resistance-starting: 3 %, resistance-moving: 2 %, slope: 1 %,"
    " force-starting: 200 N, force-moving: 150 N, source: GO 1}\n"
)
NO_MOVES_ON = (
    "needs: {sill-lock: lowered}",
    "interlock-moves-while-on: false\n  needs: {sill-lock: lowered}",
)


@dataclass(frozen=True)
class Slip:
    """The rule, the name of the clean procedure, its edits, and what stands in the line to be found.

    Each edit replaces a text that stands once; `hold` edits the description of the hold likewise.
    """

    rule: str
    clean: str
    edits: tuple[tuple[str, str], ...]
    at: str
    hold: tuple[tuple[str, str], ...] = field(default=())

    def __str__(self) -> str:
        return f"{self.rule}, {self.clean}: " + "; ".join(
            f"{find.strip()} > {put.strip()}" for find, put in (*self.edits, *self.hold)
        )


def slip(rule: str, clean: str, find: str, put: str, at: str, *hold: tuple[str, str]) -> Slip:
    """One text becomes another."""
    return Slip(rule, clean, ((find, put),) if find else (), at, hold)


def without(rule: str, clean: str, line: str, at: str) -> Slip:
    """One line left out."""
    return Slip(rule, clean, ((line, ""),), at)


def swapped(rule: str, clean: str, first: str, second: str, at: str) -> Slip:
    """Two neighbours in the wrong order."""
    return Slip(rule, clean, ((first + second, second + first),), at)


NAMES = [
    slip("unknown-in-hold", "row in", "raise: lock-41", "raise: lock-14", "raise: lock-14"),
    slip("unknown-in-hold", "row in", "lower: sill-lock", "lower: sil-lock", "lower: sil-lock"),
    slip("unknown-in-hold", "row in", "raise: lock-42", "raise: catch", "raise: catch"),
    slip("unknown-in-hold", "row out", "lower: lock-41", "lower: catch", "lower: catch"),
    slip("unknown-in-hold", "row in", "open: aft-door", "open: front-hatch", "open: front-hatch"),
    slip("unknown-in-hold", "row in", "open: aft-door", "open: aft-dor", "open: aft-dor"),
    slip("unknown-in-hold", "row in", "open: control-panel", "open: flap", "open: flap"),
    slip("unknown-in-hold", "row in", "close: control-panel", "close: flap", "close: flap"),
    slip("unknown-in-hold", "row in", "close: aft-door", "close: flap", "close: flap"),
    slip("unknown-in-hold", "row in", '{power-switch: "on"}', '{power-swich: "on"}', "power-swich"),
    slip("unknown-in-hold", "row in", '{power-switch: "off"}', '{main: "off"}', "main"),
    slip("unknown-in-hold", "row in", "present: u41", "present: u14", "present: u14"),
    slip("unknown-in-hold", "row in", "present: u42", "present: box", "present: box"),
    slip("unknown-in-hold", "row in", U41_IN, U41_IN.replace("u41", "u4l"), "u4l"),
    slip("unknown-in-hold", "row in", U42_ALONG, U42_ALONG.replace("u42", "box"), "unit: box"),
    slip("unknown-in-hold", "row in", U42_ALONG, U42_ALONG.replace("guide-s", "guide-"), "guide-witch"),
    slip("unknown-in-hold", "row in", U42_ALONG, U42_ALONG.replace("guide-switch", "lever"), "lever"),
    slip("unknown-in-hold", "row in", U42_IN, U42_IN.replace("stick", "joy"), "joy"),
    slip("unknown-in-hold", "row in", U41_ALONG, U41_ALONG.replace('"42"', '"24"'), '"24"'),
    slip("unknown-in-hold", "row in", U42_ALONG, U42_ALONG.replace('"42"]', "end]"), "end]"),
    slip("unknown-in-hold", "row in", U42_IN, U42_IN.replace("outside", "sill"), "sill,"),
    slip("unknown-in-hold", "row in", "lock-42, lock-43]", "lock-42, lock-44]", "lock-44"),
    slip(
        "unknown-in-hold",
        "row in",
        "  - present: u42\n",
        "  - check: {condition: unit-serviceable, unit: u24}\n  - present: u42\n",
        "unit: u24",
    ),
    slip("no-such-control-position", "row in", '{power-switch: "on"}', "{power-switch: start}", "start"),
    slip("no-such-control-position", "row in", '{power-switch: "off"}', "{power-switch: down}", "down"),
    slip(
        "no-such-control-position",
        "row in",
        U42_ALONG,
        U42_ALONG.replace("{stick: f", "{stick: to-f"),
        "to-f",
    ),
    slip(
        "no-such-control-position", "row in", U41_ALONG, U41_ALONG.replace("h: forward", "h: down"), "h: down"
    ),
    slip("wrong-verb-for-item", "row in", "open: control-panel", "raise: control-panel", "raise: control"),
    slip("wrong-verb-for-item", "row in", "close: aft-door", "lower: aft-door", "lower: aft-door"),
    slip("wrong-verb-for-item", "row in", "lower: sill-lock", "open: sill-lock", "open: sill-lock"),
    slip("wrong-verb-for-item", "row in", '{power-switch: "on"}', "{sill-lock: lowered}", "sill-lock: low"),
    slip("wrong-verb-for-item", "row in", "raise: lock-41", "fit: lock-41", "fit: lock-41"),
    slip("wrong-verb-for-item", "row in", "raise: lock-41", "raise: lane-drive", "raise: lane-drive"),
    slip("wrong-verb-for-item", "row in", "raise: lock-42", 'raise: "42"', 'raise: "42"'),
    slip("wrong-verb-for-item", "yard in", "remove: rear-net", "lower: rear-net", "lower: rear-net"),
    slip("wrong-verb-for-item", "yard in", "fit: front-net", "raise: front-net", "raise: front-net"),
    slip("step-without-effect", "row in", "raise: lock-41\n", "lower: lock-41\n", "lower: lock-41"),
    slip("step-without-effect", "row in", "lower: sill-lock\n", "raise: sill-lock\n", "raise: sill-lock"),
    slip(
        "step-without-effect",
        "row in",
        "raise: lock-41\n",
        "raise: lock-41\n  - raise: lock-41 # again\n",
        "again",
    ),
    slip("step-without-effect", "row in", "open: aft-door", "close: aft-door", "close: aft-door"),
    slip("step-without-effect", "row in", "open: control", "close: control", "close: control-panel"),
    slip("step-without-effect", "row in", '{power-switch: "on"}', '{power-switch: "off"}', '"off"}'),
    slip("step-without-effect", "row in", '{power-switch: "off"}', '{power-switch: "on"}', '"on"}'),
]

WAYS = [
    slip("move-not-along-a-lane", "row in", '"44", "43", "42", "41"]', '"44", "42", "41"]', '"42", "41"]'),
    slip("move-not-along-a-lane", "row in", '["44", "43", "42"]', '["43", "43", "42"]', '["43", "43", "42"]'),
    slip("move-not-along-a-lane", "row in", '["44", "43", "42"]', '["44", outside, "42"]', 'outside, "42"]'),
    slip("move-not-along-a-lane", "twin in", "[outside, 14R, 14L]", "[outside, 14L]", "[outside, 14L]"),
    slip(
        "move-not-along-a-lane",
        "row in",
        '[outside, "44"]}\n  - drive: {unit: u42',
        '[outside, "43"]}\n  - drive: {unit: u42',
        '"43"]',
    ),
    slip("move-changes-direction", "row in", '"43", "42", "41"]', '"43", "42", "43"]', '"42", "43"]'),
    slip("move-changes-direction", "row in", '"44", "43", "42"]', '"42", "43", "42"]', '"42", "43", "42"]'),
    slip("move-changes-direction", "twin in", "14R, 14L]", "14R, 13R]", "14R, 13R]"),
    without("move-through-raised-restraint", "row out", "  - lower: inner-guide\n", "{unit: u44"),
    without("move-through-raised-restraint", "row out", "  - lower: lock-43\n", '["41", "42", "43", "44"]'),
    without("move-through-raised-restraint", "twin out", "  - lower: centre-guide\n", "[14L, 14R, outside]"),
    without("move-through-raised-restraint", "twin out", "  - lower: lock-13R\n", "[11R, 12R, 13R, 14R]"),
    without("move-through-raised-restraint", "yard in", "  - remove: rear-net\n", "[outside, 2R]"),
    swapped("out-of-reach", "row in", U41_ALONG, "  - raise: lock-41\n", "raise: lock-41"),
    swapped("out-of-reach", "row in", U42_ALONG, "  - raise: lock-42\n", "raise: lock-42"),
    slip(
        "move-through-raised-restraint",
        "row in",
        U42_ALONG,
        U42_ALONG.replace(", guide-switch: forward", ""),
        '"43", "42"]',
    ),
    slip(
        "move-through-raised-restraint",
        "row out",
        U44_OUT,
        U44_OUT.replace(", sill-handle: down", ""),
        "{unit: u44",
    ),
    slip(
        "move-through-raised-restraint",
        "twin out",
        "u14R, hold: {door-stick: out, sill-handle: down}",
        "u14R, hold: {door-stick: out}",
        "[14R, outside]",
    ),
    slip(
        "move-through-raised-restraint",
        "yard in",
        "crew: 3, hold: {stop-lever: down}",
        "crew: 3",
        "[outside, 1R, 1L]",
    ),
    # Overridable in one direction only, a restraint stops the other: one word in the description.
    slip(
        "move-through-raised-restraint",
        "row out",
        "",
        "",
        '["41", "42", "43", "44"]',
        ("override: [aft]", "override: [forward]"),
    ),
    without(
        "move-with-guide-down", "twin in", "  - raise: forward-doorway-guide\n", "u11R, hold: {door-stick"
    ),
    without("move-with-guide-down", "twin out", "  - raise: aft-doorway-guide\n", "[14R, outside]"),
    without("out-of-reach", "row in", U41_ALONG, "raise: lock-41"),
    slip(
        "bay-occupied",
        "row in",
        '["44", "43", "42"]',
        '["44", "43", "42", "41"]',
        "{unit: u42, hold: {stick: forward",
    ),
    without("out-of-reach", "row out", U44_OUT, "lower: lock-41"),
]

UNITS = [
    slip("unit-does-not-fit", "row in", "u42: {type: AKH", "u42: {type: AKE", "u42, hold: {stick: in}"),
    slip("unit-does-not-fit", "row out", "u41: {type: AKH", "u41: {type: AKE", '["41", "42", "43", "44"]'),
    slip("unit-does-not-fit", "twin in", "u14L: {type: AKE", "u14L: {type: AKH", "[outside, 14R, 14L]"),
    slip(
        "unit-does-not-fit",
        "row in",
        "",
        "",
        '["44", "43", "42", "41"]',
        (
            '"41": {held-by: [end-stop, lock-41, rails], max: {K: 1134 kg}',
            '"41": {held-by: [end-stop, lock-41, rails], max: {PKC: 1134 kg}',
        ),
    ),
    without("unit-not-presented", "row in", "  - present: u41\n", "u41, hold: {stick: in}"),
    slip("unit-not-presented", "row in", "present: u41", "present: u42", "u41, hold: {stick: in}"),
    slip(
        "unit-not-presented",
        "row in",
        U41_IN,
        U44_IN,
        "u44, hold: {stick: in}",
    ),
    slip("unit-presented-twice", "row in", "present: u42", "present: u41", "present: u41"),
    slip(
        "unit-presented-twice",
        "row out",
        "  - lower: lock-41\n",
        "  - present: u41\n  - lower: lock-41\n",
        "present: u41",
    ),
    without("unit-not-where-move-starts", "row in", U41_IN, '["44", "43", "42", "41"]'),
    swapped("unit-not-where-move-starts", "row in", U41_IN, U41_ALONG, '["44", "43", "42", "41"]'),
    swapped("unit-not-where-move-starts", "row out", U41_AFT, U41_OUT, "u41, hold: {stick: out"),
    slip("unit-not-where-move-starts", "row in", U42_ALONG, U42_ALONG.replace("u42", "u41"), '"43", "42"]'),
    slip("unit-not-where-move-starts", "row in", U42_IN, U41_IN.replace("in}", "in }"), "{stick: in }"),
    slip("unit-not-where-move-starts", "row out", '["41", "42"', '["42"', '["42", "43", "44"]'),
    slip("jammed-unit-moved", "row out", "steps:\n", "jammed: [u41]\nsteps:\n", '["41", "42", "43", "44"]'),
    slip(
        "unit-not-planned",
        "row out",
        '  u41: {type: AKH, bay: "41"}\n',
        'aboard:\n  u41: {type: AKH, bay: "41"}\n',
        '["41", "42", "43", "44"]',
    ),
]

DRIVES = [
    without("move-without-power", "row in", POWER_ON, "u41, hold: {stick: in}"),
    slip(
        "move-without-power",
        "row in",
        "  - present: u42\n",
        "  - present: u42\n  - raise: sill-lock # now\n",
        "u42, hold: {stick: in}",
    ),
    slip(
        "no-live-drive",
        "row in",
        U42_ALONG,
        U42_ALONG.replace("stick: forward, ", ""),
        "{guide-switch: forward}",
    ),
    slip(
        "no-live-drive",
        "twin in",
        "",
        "",
        "u11R, hold: {right-lane-stick",
        ("under: [14R, 13R, 12R, 11R]", "under: [14R, 13R]"),
    ),
    slip("wrong-control-held", "row in", "u42, hold: {stick: in}", "u42, hold: {stick: out}", "{stick: out}"),
    slip(
        "wrong-control-held",
        "row in",
        U42_ALONG,
        U42_ALONG.replace("{stick: forward", "{stick: aft"),
        "{stick: aft",
    ),
    slip(
        "wrong-control-held",
        "row in",
        U42_ALONG,
        U42_ALONG.replace("guide-switch: forward", "sill-handle: down"),
        "sill-handle: down",
    ),
    slip(
        "wrong-control-held", "row in", U42_ALONG, U42_ALONG.replace("h: forward", "h: centre"), "h: centre"
    ),
    slip(
        "wrong-control-held",
        "twin in",
        "u14L, hold: {door-stick: in}",
        "u14L, hold: {door-stick: in, left-lane-stick: forward}",
        "left-lane-stick",
    ),
    slip(
        "wrong-control-held",
        "twin in",
        "hold: {right-lane-stick: f",
        "hold: {left-lane-stick: f",
        "{left-lane-stick",
    ),
    slip("wrong-control-held", "row in", '["44", "43", "42"]', '["44", outside]', '["44", outside]'),
    slip(
        "too-many-controls-held",
        "row out",
        U44_OUT,
        U44_OUT.replace("down}", "down, third-handle: down}"),
        "third-handle",
        (
            "controls:\n",
            "controls:\n  third-handle: {name: third handle, kind: handle, positions: [up, down],"
            " hold-to-run: true, at: outside}\n",
        ),
        ("lowered-by: {sill-handle: down}", "lowered-by: {sill-handle: down, third-handle: down}"),
    ),
    slip(
        "staying-control-held",
        "row in",
        U42_ALONG,
        U42_ALONG.replace("guide-switch: forward", 'power-switch: "on"'),
        'power-switch: "on"',
    ),
    slip("held-control-set", "row in", '{power-switch: "on"}', "{stick: forward}", "set: {stick: forward}"),
    slip(
        "held-control-set",
        "row in",
        "  - present: u42\n",
        "  - present: u42\n  - set: {guide-switch: forward}\n",
        "set: {guide-switch",
    ),
    slip(
        "hand-move-forbidden",
        "row in",
        U44_IN,
        '  - push: {unit: u44, crew: 3, through: [outside, "44"]}\n',
        "push:",
    ),
    slip(
        "crew-too-small",
        "yard in",
        "crew: 3, through: [outside, 2R]",
        "crew: 2, through: [outside, 2R]",
        "crew: 2",
    ),
    slip("pull-above-rating", "pull out", "", "", "pull:", ("pull: 1 000 N", "pull: 556 N")),
    slip("nowhere-to-pull-from", "pull out", "", "", "pull:", ("length: 2.0 m", "length: 1.72 m")),
    slip("crew-too-small", "pull out", "crew: 5", "crew: 4", "crew: 4"),
    slip(
        "wrong-control-held",
        "row in",
        U44_IN,
        '  - push: {unit: u44, crew: 3, hold: {stick: in}, through: [outside, "44"]}\n',
        "push:",
        ("restraints:\n", HAND_MOVES + "restraints:\n"),
    ),
]

PEOPLE = [
    without("path-not-confirmed", "row in", PATH + "u41\n", "u41, hold: {stick: in}"),
    without("person-in-the-way", "yard in", PATH + "u3\n", "[outside, 2R]"),
    swapped("path-not-confirmed", "row in", PATH + "u41\n", U41_IN, "u41, hold: {stick: in}"),
    without("person-in-the-way", "row in", PATH + "u42\n", "u42, hold: {stick: in}"),
    without("person-in-the-way", "row out", PATH + "u41\n", '["41", "42", "43", "44"]'),
    without("released-early", "row in", "  - raise: lock-41\n", "u42, hold: {stick: in}"),
    without("released-early", "row in", "  - raise: lock-42\n", "u44, hold: {stick: in}"),
    slip("out-of-reach", "row in", '"44", "43", "42", "41"]', '"44", "43", "42"]', "raise: lock-41"),
    swapped("out-of-reach", "row out", PATH + "u44\n" + U44_OUT, "  - lower: lock-41\n", "lower: lock-41"),
    swapped(
        "released-early",
        "row in",
        "  - raise: lock-41\n",
        "  - present: u42\n" + PATH + "u42\n" + U42_IN,
        "u42, hold: {stick: in}",
    ),
]

HANDS = [
    without("control-behind-closed-panel", "row in", "  - open: control-panel\n", 'power-switch: "on"'),
    swapped(
        "control-behind-closed-panel", "row in", "  - open: control-panel\n", POWER_ON, 'power-switch: "on"'
    ),
    swapped("control-behind-closed-panel", "row in", POWER_OFF, CLOSE_PANEL, 'power-switch: "off"'),
    slip("fixed-item-moved", "row in", "raise: lock-42", "raise: rails", "raise: rails"),
    slip("fixed-item-moved", "row out", "lower: lock-41", "lower: end-stop", "lower: end-stop"),
    slip(
        "controlled-item-moved-by-hand", "row out", "lower: lock-43", "lower: side-guide", "lower: side-guide"
    ),
    slip(
        "controlled-item-moved-by-hand",
        "row out",
        "lower: inner-guide",
        "lower: sill-stop",
        "lower: sill-stop",
    ),
    without("door-not-open", "row in", "  - open: aft-door\n", "lower: sill-lock"),
    swapped("door-not-open", "row in", "  - open: aft-door\n", "  - lower: sill-lock\n", "lower: sill-lock"),
    without("door-not-open", "yard in", "  - open: front-door\n", "open: lamp-panel"),
    without("door-not-open", "yard in", "  - open: rear-door\n", "remove: rear-net"),
    without("door-closed-too-early", "row in", "  - raise: sill-lock\n", "close: aft-door"),
    without("door-closed-too-early", "row in", CLOSE_PANEL, "close: aft-door"),
    swapped("door-closed-too-early", "row in", CLOSE_PANEL, CLOSE_DOOR, "close: aft-door"),
    swapped(
        "door-closed-too-early",
        "yard in",
        "  - fit: rear-net\n",
        "  - close: rear-door\n",
        "close: rear-door",
    ),
    without("person-shut-in", "twin out", "  - check: everyone-out\n", "close: forward-door"),
    without("person-shut-in", "yard in", "  - check: everyone-out\n", "close: rear-door"),
]

POWER = [
    without("interlock-not-met", "row in", "  - lower: sill-lock\n", 'power-switch: "on"'),
    without("interlock-not-met", "twin in", "  - lower: aft-sill-lock\n", 'power-switch: "on"'),
    slip("interlock-moved-under-power", "row in", "", "", "raise: sill-lock", NO_MOVES_ON),
    Slip(
        "interlock-moved-under-power",
        "row in",
        (("  - raise: sill-lock\n" + POWER_OFF, "  - raise: sill-lock\n"),),
        "raise: sill-lock",
        (NO_MOVES_ON,),
    ),
    slip(
        "check-contradicts-hold",
        "row in",
        "lowered: [lock-41, lock-42, lock-43]",
        "raised: [lock-41, lock-42, lock-43]",
        "lock-42",
    ),
    slip(
        "check-contradicts-hold",
        "row in",
        "raised: [side-guide, inner-guide]",
        "lowered: [inner-guide]",
        "lowered: [inner-guide]",
    ),
    slip(
        "check-contradicts-hold",
        "twin in",
        "  - raise: aft-doorway-guide\n",
        "  - check: {raised: [aft-doorway-guide]}\n",
        "check: {raised",
    ),
]

ENDINGS = [
    without(
        "unit-not-in-its-bay",
        "row in",
        "  - present: u44\n" + PATH + "u44\n" + U44_IN,
        'u44: {type: AKH, bay: "44"}',
    ),
    slip(
        "unit-not-in-its-bay",
        "row in",
        'u42: {type: AKH, bay: "42"}',
        'u42: {type: AKH, bay: "43"}',
        '["44", "43", "42"]',
    ),
    without("unit-left-aboard", "row out", U41_OUT, '["41", "42", "43", "44"]'),
    without("unit-left-aboard", "row out", PATH + "u41\n" + U41_AFT + U41_OUT, 'u41: {type: AKH, bay: "41"}'),
    without("restraint-left-down", "twin in", "  - raise: lock-13R\n", "[outside, 14R]"),
    without("restraint-left-down", "yard in", "  - raise: lock-3\n", "[2R, 3R]"),
    without("restraint-left-wrong", "row out", "  - raise: inner-guide\n", "lower: inner-guide"),
    without("restraint-left-wrong", "twin out", "  - lower: lock-13L\n", ""),
    without("switch-left-on", "row in", POWER_OFF, 'power-switch: "on"'),
    without("switch-left-on", "yard in", '  - set: {lamp-switch: "off"}\n', 'lamp-switch: "on"'),
    slip("panel-left-open", "row in", LAST_LOOK, LAST_LOOK + "  - open: control-panel # again\n", "again"),
    without("door-left-open", "row in", CLOSE_DOOR + LOOK + LAST_LOOK, "open: aft-door"),
]

U51_IN = '  - stow: {unit: u51, crew: 2, through: [outside, "50", "51"]}\n'
BULK_CODE = (
    '"52": {held-by: [net-52, walls], max: {TLP',
    '"52": {held-by: [net-52, walls], max: {K',
)
BULK_FLOOR = (
    '"52": {x: [14.00 m, 16.00 m], y: [-1.00 m, 1.00 m], position: true, bulk: true}',
    '"52": {x: [14.00 m, 16.00 m], y: [-1.00 m, 1.00 m], position: true}',
)
U51_OUT = U51_IN.replace('outside, "50", "51"', '"51", "50", outside')
U52_IN = U51_IN.replace("51", "52")
U50_OUT = '  - stow: {unit: u50, crew: 2, through: ["50", outside]}\n'
UP_IN = "  - drive: {unit: uP, hold: {stick: in, edge-lever: down}, through: [outside, 2P]}\n"
UP_ON = "  - drive: {unit: uP, hold: {stick: forward}, through: [2P, 1P]}\n"

DOORS = [
    slip("door-not-named", "yard in", "{unit: uL, door: front-door}", "uL", "present: uL"),
    slip("door-not-named", "yard in", "{unit: u3, door: rear-door}", "u3", "present: u3"),
    slip("unit-at-other-door", "yard in", "u3, door: rear-door", "u3, door: front-door", "[outside, 2R]"),
    slip("unit-at-other-door", "yard in", "[outside, 2R]", "[outside, 1R]", "[outside, 1R]"),
    slip("door-not-open", "yard in", "uL, door: front-door", "uL, door: rear-door", "uL, door: rear"),
    slip("unknown-in-hold", "yard in", "door: rear-door", "door: side-door", "door: side-door"),
    slip("unknown-in-hold", "yard in", "door: rear-door", "door: reer-door", "door: reer-door"),
]

BULK = [
    without("unit-not-presented", "sect in", "  - present: u51\n", "unit: u51"),
    without("door-not-open", "sect in", "  - open: bulk-door\n", "remove: door-net"),
    without("move-through-raised-restraint", "sect in", "  - remove: door-net\n", "unit: u51"),
    without("move-through-raised-restraint", "sect in", "  - remove: net-52\n", "unit: u52"),
    without("move-through-raised-restraint", "sect out", "  - remove: net-51\n", "unit: u51"),
    swapped("move-through-raised-restraint", "sect in", U51_IN, "  - fit: net-51\n", "unit: u51"),
    without("released-early", "sect in", "  - fit: net-51\n", "unit: u52"),
    swapped("out-of-reach", "sect out", U50_OUT, "  - remove: net-51\n", "remove: net-51"),
    slip("crew-too-small", "sect in", "u51, crew: 2", "u51, crew: 1", "crew: 1"),
    slip("crew-too-small", "sect out", "u51, crew: 2", "u51, crew: 1", "crew: 1"),
    slip("moved-by-wrong-verb", "sect in", U51_IN, U51_IN.replace("stow", "push"), "push"),
    slip("moved-by-wrong-verb", "sect in", "u52: {type: TLP", "u52: {type: AKH", "unit: u52"),
    slip(
        "moved-by-wrong-verb",
        "yard in",
        "push: {unit: u3, crew: 3, through: [outside, 2R]",
        "stow: {unit: u3, crew: 3, through: [outside, 2R]",
        "stow",
    ),
    slip("move-not-along-a-lane", "sect in", '"50", "51"]', '"51"]', '[outside, "51"]'),
    slip("unknown-in-hold", "sect in", '"50", "52"]', '"50", "25"]', '"25"]'),
    slip("unit-does-not-fit", "sect in", "", "", "unit: u52", BULK_CODE),
    slip("unit-does-not-fit", "sect in", "", "", "unit: u52", BULK_FLOOR),
    without("out-of-reach", "sect out", U50_OUT, "remove: net-51"),
    without("person-shut-in", "sect in", "  - check: everyone-out\n", "close: bulk-door"),
    without("person-shut-in", "sect out", "  - check: everyone-out\n", "close: bulk-door"),
    without("door-closed-too-early", "sect in", "  - fit: door-net\n", "close: bulk-door"),
    without("unit-left-aboard", "sect out", U51_OUT, 'u51: {type: TLP, bay: "51"}'),
]

WIDE = [
    without("unit-over-raised-restraint", "mix in", "  - lower: centre-1\n", "[2P, 1P]"),
    without("unit-over-raised-restraint", "mix out", "  - lower: centre-2\n", "[1P, 2P]"),
    slip(
        "out-of-reach",
        "mix in",
        "  - raise: lock-L\n",
        "  - raise: lock-L\n  - raise: centre-1\n",
        "raise: centre-1",
    ),
    slip(
        "unit-over-raised-restraint",
        "mix in",
        "  - raise: lock-L\n",
        "  - raise: lock-L\n  - raise: centre-1\n",
        "raise: centre-1",
        (
            "[1R, 1L], stops: [in, out], moved-by: hand,\n    reached-from: inside",
            "[1R, 1L], stops: [in, out], moved-by: hand,\n    reached-from: outside",
        ),
    ),
    swapped("out-of-reach", "mix in", UP_ON, "  - raise: lock-R\n", "raise: lock-R"),
    without("move-through-raised-restraint", "mix out", "  - lower: lock-L\n", "[1P, 2P]"),
    without("move-through-raised-restraint", "mix out", "  - lower: lock-R\n", "[1P, 2P]"),
    slip("move-through-raised-restraint", "mix in", UP_IN, UP_IN.replace(", edge-lever: down", ""), "uP"),
    slip(
        "move-through-raised-restraint",
        "mix in",
        "",
        "",
        "[outside, 2P]",
        ("    override: [in], returns: spring, reached-from", "    reached-from"),
    ),
    without("released-early", "mix in", "  - raise: lock-L\n", "unit: uL"),
    without("out-of-reach", "mix in", UP_ON, "raise: lock-R"),
    slip("unit-does-not-fit", "mix in", "uL: {type: AKH", "uL: {type: TPW", "[outside, 2R, 2L]"),
]

FRONT, REAR = "  - close: front-door\n", "  - close: rear-door\n"
FRONT_LOOK = LOOK.replace("aft", "front")
REAR_LAST = LAST_LOOK.replace("aft", "rear")
AGAIN = "  - open: aft-door # again\n"

LATCHES = [
    without("latch-not-seen-twice", "row in", LOOK, "close: aft-door"),
    without("latch-not-seen-twice", "row in", LAST_LOOK, "close: aft-door"),
    without("latch-not-seen-twice", "row out", LOOK + LAST_LOOK, "close: aft-door"),
    without("latch-not-seen-twice", "yard in", FRONT_LOOK, "close: front-door"),
    without("latch-not-seen-twice", "yard in", REAR_LAST, "close: rear-door"),
    slip("latch-not-seen-twice", "row in", LAST_LOOK, LOOK, "close: aft-door"),
    slip("latch-not-seen-twice", "row in", LOOK, LAST_LOOK, "close: aft-door"),
    slip(
        "latch-not-seen-twice",
        "row in",
        LAST_LOOK,
        LAST_LOOK + AGAIN + CLOSE_DOOR + LOOK,
        "close: aft-door",
    ),
    slip(
        "latch-not-seen-twice",
        "row in",
        LAST_LOOK,
        "  - report: loading-complete\n" + LAST_LOOK,
        "report: loading-complete",
    ),
    slip("door-left-open", "row in", LAST_LOOK, LAST_LOOK + AGAIN, "again"),
    swapped("latch-seen-late", "row in", LOOK, LAST_LOOK, "by: closer"),
    slip(
        "latch-seen-late",
        "row in",
        LOOK,
        "  - check: {raised: [sill-lock]}\n" + LOOK,
        "by: closer",
    ),
    without("check-contradicts-hold", "row in", CLOSE_DOOR, "by: closer"),
    without("check-contradicts-hold", "yard in", FRONT, "front-door, by: closer"),
    swapped("check-contradicts-hold", "row in", CLOSE_DOOR, LOOK, "by: closer"),
    slip(
        "check-contradicts-hold",
        "yard in",
        REAR,
        LOOK.replace("aft", "front") + REAR,
        "front-door, by: closer",
    ),
    slip("unknown-in-hold", "row in", LOOK, LOOK.replace("aft-door", "fwd-door"), "fwd-door"),
    slip("unknown-in-hold", "row in", LAST_LOOK, LAST_LOOK.replace("aft-door", "aft-dor"), "aft-dor"),
    slip("wrong-verb-for-item", "row in", LOOK, LOOK.replace("aft-door", "control-panel"), "control-panel"),
]

SLIPS = [*NAMES, *WAYS, *UNITS, *DRIVES, *PEOPLE, *HANDS, *POWER, *ENDINGS, *DOORS, *BULK, *WIDE, *LATCHES]
"""Every slip."""
