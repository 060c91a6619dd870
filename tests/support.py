"""Aids for tests that are written in the author's own syntax."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from procgen.diagnostics import Finding, Place
from procgen.load import Loaded, load_network
from procgen.model.hold import Hold

ROOT = Path(__file__).resolve().parent.parent
STATIONS = ROOT / "stations"

FLEET = """\
airline: Test Air (invented)
demonstration: true
aircraft:
  T-1: {title: Test type}
  SKUA-180: {title: Skua 180}
  PETREL-500: {title: Petrel 500}
sources:
  ULD: {title: Unit load device data (invented), issue: "1", date: "2026-01-01"}
bases:
  K: {length: 1534 mm, width: 1562 mm, source: ULD 2}
unit-types:
  AKE: {title: box, base: K, height: 1626 mm, contour: E, max-gross: 1588 kg, tare: 82 kg, source: ULD 3-1}
  AKH: {title: low, base: K, height: 1143 mm, contour: H, max-gross: 1134 kg, tare: 79 kg, source: ULD 3-2}
"""
"""The fleet that `load_texts` adds where a test gives none."""


@cache
def schemas() -> Mapping[str, object]:
    """The schemas of the checkout, by file name."""
    return {
        path.name: json.loads(path.read_text("utf-8")) for path in sorted((ROOT / "schemas").glob("*.json"))
    }


@cache
def packaged() -> Mapping[str, str]:
    """The data that travels with the program."""
    return {"hazards.yaml": (ROOT / "procgen" / "data" / "hazards.yaml").read_text("utf-8")}


REVISIONS = {
    "K1B/station.yaml": """\
revision:
  number: 3
  date: "2026-11-20"
  effective: "2026-11-25"
  author: M. Arden (invented)
  reason: The forward hold of the Petrel 500 is new at this station.
""",
    "N4T/station.yaml": """\
revision:
  number: 1
  date: "2026-11-20"
  effective: "2026-11-25"
  author: I. Sorrel (invented)
  reason: First issue.
""",
}
"""What the stations say of their revision where their releases do not."""


@cache
def demo_files() -> Mapping[str, str]:
    """The descriptions of the demonstration stations, by their path; without releases and answers to them."""
    released = {"releases", "answers.yaml"}
    paths = (path for path in sorted(STATIONS.rglob("*")) if not {path.parent.name, path.name} & released)
    found = (path for path in paths if path.suffix in (".yaml", ".json"))
    texts = {path.relative_to(STATIONS).as_posix(): path.read_text("utf-8") for path in found}
    return {file: text + REVISIONS.get(file, "") for file, text in texts.items()}


@cache
def demo() -> Loaded:
    """The demonstration stations, loaded."""
    return load_network(demo_files(), packaged(), schemas())


def demo_hold(name: str) -> Hold:
    """One hold of the demonstration."""
    return demo().network.holds[name]


def load_texts(files: Mapping[str, str], hazards: str | None = None) -> Loaded:
    """Load texts by their path below the stations folder; the fleet above where none is given."""
    given = {"fleet/fleet.yaml": FLEET, **files}
    return load_network(given, packaged() if hazards is None else {"hazards.yaml": hazards}, schemas())


def demo_with(file: str, find: str, put: str) -> Loaded:
    """The demonstration with one change: in `file`, the one place where `find` stands becomes `put`."""
    text = demo_files()[file]
    assert text.count(find) == 1, f"“{find}” stands {text.count(find)} times in {file}"
    return load_network({**demo_files(), file: text.replace(find, put)}, packaged(), schemas())


def pointed_at(loaded: Loaded, finding: Finding) -> str:
    """The text that a finding points at, to the end of its first line."""
    return text_at(loaded, finding.place)


def text_at(loaded: Loaded, place: Place) -> str:
    """The text at a place, to the end of its first line."""
    document = loaded.documents[place.file]
    span = document.span(place)
    line = document.text.splitlines()[span.line - 1]
    end = span.end_column - 1 if span.end_line == span.line else len(line)
    return line[span.column - 1 : end]
