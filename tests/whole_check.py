"""The whole check of a set of stations, in the order in which the program runs it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from procgen.diagnostics import Finding
from procgen.load import Loaded, load_network
from procgen.pipeline.checking import check
from tests.support import ROOT, packaged, schemas

DAY = "2026-06-01"
"""The day of the check, for what expires, where a rule's page does not name one."""

EXAMPLE = ROOT / "procgen" / "data" / "example"


@cache
def example_files() -> Mapping[str, str]:
    """The packaged clean example, by path."""
    return _texts(EXAMPLE)


def _texts(folder: Path) -> Mapping[str, str]:
    files = sorted([*folder.rglob("*.yaml"), *folder.glob("*/releases/*.json")])
    return {path.relative_to(folder).as_posix(): path.read_text("utf-8") for path in files}


def edited(files: Mapping[str, str], file: str, find: str, put: str) -> Mapping[str, str]:
    """The files with the one place where `find` stands in `file` replaced by `put`; if empty, a new file."""
    if not find:
        assert file not in files
        return {**files, file: put}
    assert files[file].count(find) == 1, f"“{find}” stands {files[file].count(find)} times in {file}"
    return {**files, file: files[file].replace(find, put)}


def findings_of(files: Mapping[str, str], on: str = DAY) -> tuple[Loaded, tuple[Finding, ...]]:
    """Load the files and check everything in them: data, derived and written procedures, releases."""
    loaded = load_network(files, packaged(), schemas())
    return loaded, check(loaded, today=on).findings


def line_of(loaded: Loaded, finding: Finding) -> int:
    """The line that a finding points at."""
    document = loaded.documents.get(finding.place.file)
    if document is None:
        assert finding.place.span is not None
        return finding.place.span.line
    return document.span(finding.place).line
