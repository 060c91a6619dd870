"""Each rule of loading, by one change to the demonstration: found once, alone, at the very text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from procgen.diagnostics import Severity
from procgen.load import RULES, Loaded, load_network
from procgen.load.rules import READING
from tests.support import (
    ROOT,
    demo,
    demo_files,
    demo_with,
    load_texts,
    packaged,
    pointed_at,
    schemas,
    text_at,
)

HOLD = "fleet/holds/SR-AFT.yaml"
FLEET = "fleet/fleet.yaml"
BY_HAND = "fleet/holds/MR-FWD.yaml"
STATION = "K1B/station.yaml"
STEPS = "K1B/procedures/sr-aft-two-units.yaml"


@dataclass(frozen=True)
class Slip:
    """In `file`, `find` becomes `put`; `rule` is found at the text `at`, and says `says`."""

    rule: str
    file: str
    find: str
    put: str
    at: str
    says: str = ""
    related: str | None = None

    def __str__(self) -> str:
        return f"{self.rule}: {self.at}"


END_STOP = '    beside: ["41"]\n    stops: [forward]\n    fixed: true\n'
SHAPE = [
    Slip("unknown-key", HOLD, "    sill: 2.05 m", "    sil: 2.05 m", "sil", "did you mean “sill”?"),
    Slip("unknown-key", HOLD, "close-needs: {sill-lock: raised}", "colour: blue", "colour", "use one of"),
    Slip(
        "unknown-key",
        STEPS,
        "unit: u42, hold: {stick: in}",
        "unit: u42, hold: {stick: in}, speed: x",
        "speed",
    ),
    Slip(
        "missing-key",
        HOLD,
        "    sill: 2.05 m\n",
        "",
        "aft-door",
        "add “sill”: height of the sill above the ground, as in sill: 2.05 m",
    ),
    Slip("missing-key", STATION, "mass-unit: kg\n", "", "station: K1B", "add “mass-unit”"),
    Slip("missing-key", HOLD, END_STOP, "    stops: [forward]\n    fixed: true\n", "end-stop", "beside"),
    Slip(
        "missing-key",
        HOLD,
        'between: ["42", "41"]\n    stops: [forward, aft]\n    moved-by: hand\n    reached-from: inside',
        'between: ["42", "41"]\n    stops: [forward, aft]\n    moved-by: hand',
        "moved-by",
        "reached-from: inside",
    ),
    Slip("missing-key", STEPS, ", by: second-person}", "}", "check", "by: second-person"),
    Slip("missing-key", STEPS, "{latched: aft-door, by: closer}", "{by: closer}", "by", "latched: DOOR"),
    Slip(
        "contradicting-keys",
        STEPS,
        "{condition: unit-serviceable, unit: u42}",
        "{condition: unit-serviceable, by: closer}",
        "by",
        "delete “by”",
    ),
    Slip(
        "contradicting-keys",
        STEPS,
        "aft-door, by: closer",
        "aft-door, by: closer, unit: u42",
        "unit",
        "latched",
    ),
    Slip("unknown-word", STEPS, "by: closer", "by: loader", "loader", "closer"),
    Slip(
        "missing-key", STEPS, "{condition: unit-serviceable, unit: u42}", "{unit: u42}", "check", "condition"
    ),
    Slip("missing-value", HOLD, "surface: roller track", "surface:", "surface", "write text"),
    Slip("missing-value", HOLD, "surface: roller track", 'surface: ""', '""', "write it"),
    Slip("missing-value", STEPS, "- lower: sill-lock", "- {}", "{}"),
    Slip(
        "wrong-type",
        STEPS,
        "- lower: sill-lock",
        "- lower sill-lock",
        "lower sill-lock",
        "“lower: sill-lock”",
    ),
    Slip("wrong-type", HOLD, "surface: roller track", "surface: [roller]", "[roller]", "write text"),
    Slip("wrong-type", HOLD, 'through: [outside, "44"]', "through: [outside, 44]", "44", 'quotes: "44"'),
    Slip("wrong-type", HOLD, "powered: true", "powered: often", "often", "without quotes"),
    Slip(
        "wrong-type",
        HOLD,
        'beside: ["44"]\n    stops: [in]',
        'beside: "44"\n    stops: [in]',
        '"44"',
        "a list",
    ),
    Slip("wrong-type", STEPS, "- check: engines-stopped", "- check: [engines-stopped]", "[engines-stopped]"),
    Slip("unknown-word", HOLD, "side: right", "side: rihgt", "rihgt", "did you mean “right”?"),
    Slip("unknown-word", HOLD, "returns: when-clear", "returns: later", "later", "write when-clear"),
    Slip("unknown-word", STEPS, "section: prepare", "section: preparation", "preparation", "“prepare”"),
    Slip("bad-name", HOLD, "  aft-hold: {", "  aft hold: {", "aft hold", "“aft-hold”"),
    Slip("wrong-count", HOLD, "y: [-0.85 m, 0.85 m]", "y: [-0.85 m]", "[-0.85 m]", "write 2"),
    Slip("wrong-count", STATION, "holds: [TR-FWD, MX-AFT, BK-AFT, SR-AFT]", "holds: []", "[]", "at least 1"),
    Slip("wrong-count", STEPS, '{power-switch: "on"}', '{power-switch: "on", stick: in}', "stick", "its own"),
    Slip("number-too-small", STATION, "number: 3", "number: 0", "0", "write 1 or more"),
    Slip("unknown-verb", STEPS, "- lower: sill-lock", "- lowr: sill-lock", "lowr", "did you mean “lower”?"),
    Slip("two-verbs-in-step", STEPS, "- lower: sill-lock\n  - open", "- lower: sill-lock\n    open", "open"),
]
VALUES = [
    Slip("quantity-without-unit", HOLD, "sill: 2.05 m", "sill: 2.05", "2.05", "m, cm, mm, in, ft"),
    Slip("quantity-without-unit", HOLD, "sill: 2.05 m", "sill: 2", "2"),
    Slip("quantity-without-unit", HOLD, "value: 760 kg/m", "value: 760", "760", "kg/m"),
    Slip("quantity-without-unit", HOLD, "combined: 4000 kg", "combined: 4000", "4000"),
    Slip("quantity-without-unit", FLEET, "max-gross: 1588 kg", "max-gross: 1588", "1588"),
    Slip("unknown-unit", HOLD, "sill: 2.05 m", "sill: 2.05 metres", "2.05 metres", "did you mean m?"),
    Slip("wrong-dimension", HOLD, "sill: 2.05 m", "sill: 2.05 kg", "2.05 kg", "use one of m"),
    Slip("wrong-dimension", HOLD, "combined: 4000 kg", "combined: 4000 N", "4000 N"),
    Slip("not-a-quantity", HOLD, "sill: 2.05 m", "sill: 2,05 m", "2,05 m", "decimal point"),
    Slip("not-a-quantity", HOLD, "sill: 2.05 m", "sill: high", "high"),
    Slip("not-a-quantity", HOLD, "sill: 2.05 m", "sill: true", "true"),
    Slip("quantity-not-positive", HOLD, "sill: 2.05 m", "sill: -2.05 m", "-2.05 m"),
    Slip("quantity-not-positive", FLEET, "max-gross: 1588 kg", "max-gross: 0 kg", "0 kg"),
    Slip(
        "interval-reversed",
        HOLD,
        "x: [15.86 m, 17.48 m]",
        "x: [17.48 m, 15.86 m]",
        "17.48 m",
        "write [15.86 m, 17.48 m]",
        "15.86 m",
    ),
    Slip(
        "interval-reversed",
        HOLD,
        "x: [15.86 m, 17.48 m]",
        "x: [15.86 m, 1586 cm]",
        "15.86 m",
        "ends where it begins",
    ),
    Slip(
        "ends-in-two-units",
        HOLD,
        "x: [15.86 m, 17.48 m]",
        "x: [15.86 mm, 17.48 m]",
        "15.86 mm",
        "in one unit, mm or m",
        "17.48 m",
    ),
    Slip("bad-date", HOLD, 'date: "2026-09-01"', 'date: "2026-09-31"', '"2026-09-31"'),
    Slip("bad-date", STATION, 'effective: "2026-11-25"', 'effective: "25 November"', '"25 November"'),
    Slip("limit-without-source", HOLD, "  up: 2.0 g\n  source: WB 2-1", "  up: 2.0 g", "load-factors"),
    Slip(
        "limit-without-source", HOLD, "{opening: 40 kt, open: 60 kt, source: GO 7-2}", "{open: 60 kt}", "wind"
    ),
    Slip("limit-without-source", HOLD, "{value: 760 kg/m, source: WB 3-4}", "760 kg/m", "limits"),
    Slip(
        "limit-without-source",
        HOLD,
        "rating: {left: 30 kN, up: 30 kN}\n    source: WB 4-3",
        "rating: {left: 30 kN, up: 30 kN}",
        "rating",
    ),
    Slip(
        "limit-without-source",
        HOLD,
        "{K: 1000 kg}, contours: [H, C], source: WB 5-1",
        "{K: 1000 kg}, contours: [H, C]",
        "max",
    ),
    Slip(
        "limit-without-source", BY_HAND, "length: 2.0 m, source: GO 8-5}", "length: 2.0 m}", "pulling-strap"
    ),
    Slip("missing-key", BY_HAND, "pull: 1 000 N, length", "length", "pulling-strap", "pull"),
    Slip("limit-without-source", FLEET, "1562 mm, source: ULD 2", "1562 mm", "K"),
    Slip("limit-without-source", FLEET, "tare: 82 kg, source: ULD 3-1", "tare: 82 kg", "max-gross"),
    Slip("source-without-page", HOLD, "source: WB 2-1", "source: WB", "WB", "“WB 5-1”"),
]
NAMES = [
    Slip("unknown-name", HOLD, "source: WB 2-1", "source: WG 2-1", "WG 2-1", "source “WG”"),
    Slip("unknown-name", HOLD, "aircraft: SKUA-180", "aircraft: SKUA-18", "SKUA-18", "“SKUA-180”"),
    Slip("unknown-name", HOLD, "door: aft-door", "door: aft-dor", "aft-dor", "“aft-door”"),
    Slip(
        "unknown-name",
        HOLD,
        "close-needs: {sill-lock: raised}",
        "close-needs: {sil-lock: raised}",
        "sil-lock",
    ),
    Slip(
        "unknown-name",
        HOLD,
        'through: ["44", "43", "42"',
        'through: ["44", "43", "24"',
        '"24"',
        "did you mean “42”?",
    ),
    Slip("unknown-name", HOLD, "switch: power-switch\n", "switch: power-swich\n", "power-swich"),
    Slip("unknown-name", HOLD, "needs: {sill-lock: lowered}", "needs: {sill-locks: lowered}", "sill-locks"),
    Slip(
        "unknown-name",
        HOLD,
        'positions: ["off", "on"], behind: control-panel',
        'positions: ["off", "on"], behind: panel',
        "panel",
        "panel “panel”",
    ),
    Slip("unknown-name", HOLD, 'under: ["44"]', 'under: ["45"]', '"45"'),
    Slip("unknown-name", HOLD, "run-by: stick, go: [in, out]", "run-by: stik, go: [in, out]", "stik"),
    Slip("unknown-name", HOLD, 'between: ["42", "41"]', 'between: ["42", "40"]', '"40"'),
    Slip(
        "unknown-name", HOLD, 'beside: ["44"]\n    stops: [aft]', 'beside: ["45"]\n    stops: [aft]', '"45"'
    ),
    Slip(
        "unknown-name",
        HOLD,
        "lowered-by: {sill-handle: down}",
        "lowered-by: {sil-handle: down}",
        "sil-handle",
    ),
    Slip(
        "unknown-name", HOLD, 'guides: [[outside, "44"]]', 'guides: [[outsid, "44"]]', "outsid", "“outside”"
    ),
    Slip("unknown-name", HOLD, "held-by: [end-stop,", "held-by: [endstop,", "endstop", "“end-stop”"),
    Slip("unknown-name", HOLD, "{K: 1000 kg}", "{Q: 1000 kg}", "Q", "base size or unit type"),
    Slip(
        "unknown-name",
        HOLD,
        'positions: ["41", "42", "43", "44"]',
        'positions: ["41", "42", "43", "45"]',
        '"45"',
    ),
    Slip(
        "unknown-name",
        FLEET,
        "single-row lower hold, base: K, height: 1143 mm, contour: H",
        "single-row lower hold, base: L, height: 1143 mm, contour: H",
        "L",
    ),
    Slip("unknown-name", STATION, "SR-AFT]", "SR-AT]", "SR-AT", "“SR-AFT”"),
    Slip("unknown-name", STEPS, "hold: SR-AFT", "hold: SR-AF", "SR-AF", "“SR-AFT”"),
    Slip("unknown-name", STEPS, "u41: {type: AKH,", "u41: {type: AKJ,", "AKJ", "unit type"),
    Slip("unknown-name", STEPS, 'bay: "41"', 'bay: "51"', '"51"'),
    Slip(
        "unknown-name", STEPS, "warning: wind-catches-door", "warning: wind-catches-dor", "wind-catches-dor"
    ),
    Slip("unknown-name", STEPS, "check: engines-stopped", "check: engine-stopped", "engine-stopped"),
    Slip("unknown-name", STEPS, "report: loading-complete", "report: loading-done", "loading-done"),
    Slip(
        "name-used-twice",
        HOLD,
        "name: aft stop",
        "name: End stop",
        "End stop",
        "“aft-stop” and of “end-stop”",
        "end stop",
    ),
    Slip(
        "name-used-twice",
        HOLD,
        "  door-drive: {name: door drive",
        "  stick: {name: door drive",
        "stick",
        "a drive and a control",
        "stick",
    ),
    Slip(
        "name-used-twice",
        STEPS,
        "steps:\n  - section: before",
        'aboard: {u41: {type: AKH, bay: "43"}}\nsteps:\n  - section: before',
        "u41",
        "stays aboard",
        "u41",
    ),
    Slip("bay-given-twice", STEPS, 'bay: "42"', 'bay: "41"', '"41"', "two units", '"41"'),
    Slip(
        "impossible-failure",
        STEPS,
        "operation: loading",
        "operation: loading\nout-of-service: {end-stop: down}",
        "down",
        "missing",
    ),
    Slip(
        "listed-twice",
        STATION,
        "[TR-FWD, MX-AFT, BK-AFT, SR-AFT]",
        "[TR-FWD, SR-AFT, SR-AFT]",
        "SR-AFT",
        "delete one",
        "SR-AFT",
    ),
    Slip("reserved-name", HOLD, "  lane-drive: {name", "  outside: {name", "outside"),
    Slip(
        "unknown-control-position",
        HOLD,
        "lowered-by: {sill-handle: down}",
        "lowered-by: {sill-handle: dwn}",
        "dwn",
        "“down”",
        "sill-handle",
    ),
    Slip(
        "unknown-control-position",
        HOLD,
        '"on": "on"',
        '"on": run',
        "run",
        "no position “run”",
        "power-switch",
    ),
    Slip(
        "unknown-control-position",
        HOLD,
        "run-by: stick, go: [in, out]",
        "run-by: stick, go: {in: push}",
        "push",
    ),
    Slip(
        "position-not-marked",
        HOLD,
        "[12.52 m, 14.08 m], y: [-0.79 m, 0.79 m], position: true",
        "[12.52 m, 14.08 m], y: [-0.79 m, 0.79 m]",
        '"42"',
        "position: true",
        '"42"',
    ),
    Slip("name-differs-from-file", HOLD, "hold: SR-AFT", "hold: SR-AFD", "SR-AFD", "“hold: SR-AFT”"),
    Slip("name-differs-from-file", STATION, "station: K1B", "station: K2B", "K2B"),
    Slip("demonstration-unmarked", HOLD, "demonstration: true", "demonstration: false", "false", "", "true"),
    Slip("demonstration-unmarked", HOLD, "demonstration: true\n", "", "hold"),
]
MEANING = [
    Slip(
        "points-out-of-order",
        HOLD,
        "{x: 14.11 m, max: 2 050 kg}",
        "{x: 12.11 m, max: 2 050 kg}",
        "12.11 m",
        "in order of x",
        related="12.49 m",
    ),
    Slip("points-out-of-order", HOLD, "{z: 0 m, width: 1.70 m}", "{z: 10 mm, width: 1.70 m}", "10 mm"),
    Slip("interval-reversed", FLEET, "main: 27.50 m", "main: 2.75 m", "2.75 m", related="4.20 m"),
    Slip("missing-key", HOLD, "x: [12.20 m, 14.40 m], ", "", "mid-frames", "neither positions nor"),
    Slip(
        "listed-twice",
        HOLD,
        "out-together: [[lock-41, lock-42]]",
        "out-together: [[lock-41, lock-41]]",
        "lock-41",
    ),
    Slip("limit-without-source", HOLD, "ventilation., source: GO 10-2}", "ventilation.}", "text"),
    Slip(
        "contradicting-keys",
        HOLD,
        END_STOP,
        END_STOP + "    moved-by: hand\n    reached-from: inside\n",
        "moved-by",
        "fixed",
        "fixed",
    ),
    Slip("contradicting-keys", HOLD, END_STOP, END_STOP + "    at-rest: lowered\n", "at-rest"),
    Slip("contradicting-keys", HOLD, END_STOP, END_STOP + "    when-vacant: either\n", "when-vacant"),
    Slip(
        "contradicting-keys",
        HOLD,
        'between: ["42", "41"]',
        'between: ["42", "41"]\n    beside: ["41"]',
        "beside",
        "one of the two",
        "between",
    ),
    Slip(
        "contradicting-keys", HOLD, 'between: ["42", "41"]', 'between: ["42", "42"]', '["42", "42"]', "itself"
    ),
    Slip(
        "contradicting-keys", HOLD, "    lowered-by: {guide-switch: forward}\n", "", "powered", "no control"
    ),
    Slip(
        "contradicting-keys",
        HOLD,
        'between: ["42", "41"]\n    stops: [forward, aft]\n    moved-by: hand\n    reached-from: inside',
        'between: ["42", "41"]\n    stops: [forward, aft]\n    override: [aft]\n    reached-from: inside',
        "reached-from",
        "moved-by: hand",
    ),
    Slip(
        "contradicting-keys",
        HOLD,
        "positions: [up, down], returns",
        "positions: [up, down], hold-to-run: true, returns",
        "returns",
        "one of the two",
        "hold-to-run",
    ),
    Slip(
        "contradicting-keys",
        STEPS,
        "{raised: [side-guide]}",
        "{raised: [side-guide], lowered: [sill-lock]}",
        "lowered",
        "its own",
        "raised",
    ),
    Slip("contradicting-keys", STEPS, "{raised: [side-guide]}", "{raised: [side-guide], unit: u41}", "unit"),
    Slip(
        "nothing-moves-it",
        HOLD,
        END_STOP,
        END_STOP.replace("    fixed: true\n", ""),
        "end-stop",
        "fixed: true",
    ),
    Slip(
        "lane-passes-twice",
        HOLD,
        '"43", "42", "41"]}\n\npower',
        '"43", "42", "43"]}\n\npower',
        '"43"',
        "order",
        '"43"',
    ),
    Slip(
        "outside-in-mid-lane", HOLD, 'through: [outside, "44"]}\n', 'through: ["44", outside]}\n', "outside"
    ),
    Slip(
        "works-at-rest",
        HOLD,
        "lowered-by: {sill-handle: down}",
        "lowered-by: {sill-handle: up}",
        "up",
        "down",
        "sill-handle",
    ),
    Slip("works-at-rest", HOLD, "go: [in, out]", "go: {in: centre, out: out}", "centre"),
]
ONLY_WARN = ("ends-in-two-units", "limit-without-source", "source-without-page")
SLIPS = [*SHAPE, *VALUES, *NAMES, *MEANING]


def _with(slip: Slip) -> Loaded:
    """The part of the demonstration that the slip is in, with the slip made."""
    files = dict(demo_files())
    if slip.file in (HOLD, FLEET):
        alone = re.sub(r"(?m)^holds: .*$", "holds: [SR-AFT]", files["N4T/station.yaml"])
        files = {FLEET: files[FLEET], HOLD: files[HOLD], "N4T/station.yaml": alone}
    assert files[slip.file].count(slip.find) == 1, slip
    files[slip.file] = files[slip.file].replace(slip.find, slip.put)
    return load_texts(files)


@pytest.mark.parametrize("slip", SLIPS, ids=str)
def test_one_slip_is_one_finding_at_its_text(slip: Slip) -> None:
    loaded = _with(slip)
    assert [finding.rule for finding in loaded.findings] == [slip.rule]
    (finding,) = loaded.findings
    assert finding.place.file == slip.file
    assert pointed_at(loaded, finding) == slip.at
    assert slip.says in f"{finding.message} {finding.suggestion}"
    assert finding.suggestion
    assert finding.severity is (Severity.WARNING if slip.rule in ONLY_WARN else Severity.ERROR)
    if slip.related is not None:
        assert text_at(loaded, finding.related[0].place) == slip.related


def test_the_demonstration_has_no_finding() -> None:
    assert demo().findings == ()


def test_position_not_described() -> None:
    line = next(line for line in demo_files()[HOLD].splitlines() if line.startswith('  "43": {held-by'))
    loaded = demo_with(HOLD, line + "\n", "")
    found = {finding.rule: pointed_at(loaded, finding) for finding in loaded.findings}
    assert found["position-not-described"] == "position"
    assert found["unknown-name"] == '"43"', "the zone names the position too"


def test_two_files_for_one_hold() -> None:
    text = demo_files()[HOLD]
    loaded = load_texts({**demo_files(), "fleet/holds/SR-AFT-2.yaml": text})
    rules = [finding.rule for finding in loaded.findings]
    assert rules == ["name-differs-from-file", "name-used-twice"]


def test_two_procedures_of_one_name() -> None:
    loaded = load_texts({**demo_files(), "K1B/procedures/b.yaml": demo_files()[STEPS]})
    (finding,) = loaded.findings
    assert finding.rule == "name-used-twice"
    assert finding.related[0].place.file != finding.place.file


def test_files_that_are_missing_or_not_read() -> None:
    files = {"fleet/hold/X.yaml": "hold: X", STEPS: demo_files()[STEPS], HOLD: demo_files()[HOLD]}
    loaded = load_texts(files)
    assert {(finding.rule, finding.place.file) for finding in loaded.findings} == {
        ("file-not-read", "fleet/hold/X.yaml"),
        ("file-missing", STATION),
    }


def test_a_station_with_releases_states_no_revision_and_one_without_need_not() -> None:
    files = {**demo_files(), "N4T/releases/list.json": "read elsewhere"}
    mine = [one for one in load_texts(files).findings if one.rule == "revision-beside-releases"]
    assert [one.place.file for one in mine] == ["N4T/station.yaml"]
    text = demo_files()["N4T/station.yaml"]
    files["N4T/station.yaml"] = text[: text.index("revision:")]
    loaded = load_texts(files)
    assert [one.rule for one in loaded.findings if one.place.file == "N4T/station.yaml"] == []
    assert loaded.network.stations["N4T"].revision.number == 0


def test_a_folder_with_releases_and_no_station() -> None:
    found = load_texts({**demo_files(), "X9X/releases/001.json": ""}).findings
    assert ("file-missing", "X9X/station.yaml") in {(one.rule, one.place.file) for one in found}


def test_a_fleet_that_is_missing() -> None:
    files = {file: text for file, text in demo_files().items() if file != FLEET}
    found = load_network(files, packaged(), schemas()).findings
    assert [(finding.rule, finding.place.file) for finding in found] == [("file-missing", FLEET)]


def test_every_rule_is_listed_and_tried() -> None:
    code = "\n".join(path.read_text("utf-8") for path in sorted(Path(ROOT / "procgen" / "load").glob("*.py")))
    for rule in RULES:
        assert rule in READING or f'"{rule}"' in code
    tried = {slip.rule for slip in SLIPS} | {"position-not-described", "file-missing", "file-not-read"}
    tried |= {"revision-beside-releases"}
    assert tried == set(RULES) - set(READING)
    emitted = set(re.findall(r'(?:wrong|doubt|Finding)\(\s*"([a-z]+(?:-[a-z]+)+)"', code))
    assert emitted <= set(RULES)
