"""The files of a stations folder: which kind each is, and reading one up to its checked shape."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import PurePosixPath

from procgen.diagnostics import Finding, Place, Severity, Span
from procgen.load.log import Log
from procgen.load.node import Node
from procgen.load.shape import Shapes
from procgen.load.waivers import waivers, without_waivers
from procgen.model.waiver import Waiver
from procgen.source import read_document

FLEET_FILE = "fleet/fleet.yaml"
HAZARDS_FILE = "hazards.yaml"
HAZARDS_PLACE = f"<{HAZARDS_FILE}>"
"""How the packaged hazard list is named in places: it is no file of the writer's."""
_TOP = Span(1, 1, 1, 1)


@dataclass(frozen=True, slots=True)
class Opened:
    """One file on its way to a record.

    `name` is what its description calls itself, or the name of the file where it does not say.
    """

    root: Node
    name: str

    @property
    def log(self) -> Log:
        """Where its findings go."""
        return self.root.log

    @property
    def file(self) -> str:
        """Its path."""
        return self.root.place.file


@dataclass
class Opening:
    """The files opened so far."""

    shapes: Shapes
    files: dict[str, Opened] = field(default_factory=dict)
    waivers: list[Waiver] = field(default_factory=list)

    def open(self, file: str, text: str, schema: str, name_key: str) -> Opened:
        """Read a file's text, check its shape, note what is wrong."""
        document, findings = read_document(file, text)
        answers, badly_written = waivers(document, self.shapes)
        self.waivers += answers
        document = without_waivers(document)
        log = Log(document)
        log.findings.extend(findings)
        self.shapes.check_file(schema, log)
        log.findings.extend(badly_written)
        root = Node(document.data, document.place(), log)
        named = root[name_key].data
        self.files[file] = Opened(root, named if isinstance(named, str) else PurePosixPath(file).stem)
        return self.files[file]


KINDS = ("fleet", "hold", "station", "procedure", "answers", "release", "stray")


def by_kind(files: Mapping[str, str]) -> Mapping[str, list[str]]:
    """The paths of each kind of file, in order."""
    kinds: dict[str, list[str]] = {key: [] for key in KINDS}
    for file in sorted(files):
        kinds[_kind(file)].append(file)
    return kinds


def _kind(file: str) -> str:
    path = PurePosixPath(file)
    parts, is_yaml = path.parts, path.suffix == ".yaml"
    if file == FLEET_FILE:
        return "fleet"
    if parts[:2] == ("fleet", "holds") and len(parts) == 3 and is_yaml:
        return "hold"
    if len(parts) == 2 and parts[0] != "fleet" and path.name == "station.yaml":
        return "station"
    if len(parts) == 2 and parts[0] != "fleet" and path.name == "answers.yaml":
        return "answers"
    if len(parts) == 3 and parts[0] != "fleet" and parts[1] == "releases":
        return "release"
    if len(parts) == 3 and parts[0] != "fleet" and parts[1] == "procedures":
        return "procedure" if is_yaml or path.suffix == ".json" else "stray"
    return "stray"


def not_read(file: str) -> Finding:
    """A file that stands where nothing reads it."""
    return Finding(
        "file-not-read",
        f"nothing reads “{file}”",
        Place(file, span=_TOP),
        Severity.WARNING,
        "move it to fleet/fleet.yaml, fleet/holds/NAME.yaml, CODE/station.yaml or"
        " CODE/procedures/NAME.yaml or CODE/answers.yaml, or delete it",
    )


def missing(file: str, what: str) -> Finding:
    """A file that is not there."""
    return Finding(
        "file-missing", f"there is no “{file}”: {what}", Place(file, span=_TOP), suggestion="write it"
    )
