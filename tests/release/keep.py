"""Keep a record and its schema for ever, as they are written now: `python -m tests.release.keep`.

Records of every format that was ever given out must be read, so one of each is kept. Until the program's own
first release this may be run again; after that, a form that breaks what is kept needs a new format number, a
reader for the old one, and a record of its own beside this one.
"""

from __future__ import annotations

from pathlib import Path

from procgen.pipeline.checking import check, load_inputs
from procgen.pipeline.recording import record_of
from procgen.release import record_text
from procgen.release.schema import record_schema
from procgen.report.json_text import json_text
from procgen.results.record import FORMAT
from tests.whole_check import DAY, example_files

KEPT = Path(__file__).parent / "kept"


def write(folder: Path) -> None:
    """Write the record of the packaged example station, and the schema of records."""
    checked = check(load_inputs(example_files()), today=DAY)
    text = record_text(record_of(checked, checked.network.stations["S1A"]))
    folder.mkdir(exist_ok=True)
    (folder / f"record-{FORMAT}.json").write_text(text, encoding="utf-8")
    schema = json_text(record_schema()) + "\n"
    (folder / f"record-{FORMAT}.schema.json").write_text(schema, encoding="utf-8")


if __name__ == "__main__":
    write(KEPT)
