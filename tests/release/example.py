"""Write the releases of the packaged example station S3C: `python -m tests.release.example`.

Two revisions, the second temporary until 2026-06-30. Their records are left out: what the rules on releases
look at is the chain around them.
"""

from __future__ import annotations

from pathlib import Path

from procgen.release import (
    Addition,
    approval_added,
    previous_of,
    read_chain,
    release_added,
    sha256,
)
from procgen.release.files import LIST_FILE
from procgen.results.release import Approval, Release
from tests.support import ROOT

CODE = "S3C"
FOLDER = ROOT / "procgen" / "data" / "example" / CODE / "releases"
RECORD = '{"format":1,"note":"The record of this example is left out."}\n'
REVISIONS = (
    ("2026-03-01", "2026-03-10", "First issue.", ""),
    ("2026-05-01", "2026-05-04", "Loader 7 is out of service.", "2026-06-30"),
)


def write(folder: Path) -> None:
    """Write the chain into a folder."""
    files: dict[str, str] = {}

    def add(addition: Addition) -> None:
        files.update({addition.name: addition.text, LIST_FILE: addition.lists[1]})

    for number, (date, effective, reason, expires) in enumerate(REVISIONS, start=1):
        chain = read_chain(CODE, files)
        previous = previous_of(chain)
        about = (CODE, number, date, effective, "A. Person (invented)", reason, sha256(RECORD))
        add(release_added(chain, Release(*about, previous=previous, expires=expires), RECORD))
        chain = read_chain(CODE, files)
        text = chain.releases[-1].text
        add(approval_added(chain, Approval(CODE, number, sha256(text), "B. Person (invented)", date)))
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    write(FOLDER)
