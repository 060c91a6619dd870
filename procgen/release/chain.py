"""Read a station's releases as a chain, and find what was altered, lost, added or reordered in it.

Each release names the SHA-256 of the one before it; the list beside them names the SHA-256 of every file, so
that the loss of the last one is seen too. What this cannot see is a chain that somebody wrote anew from end
to end, list and all: that is for whoever keeps copies (git does).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from procgen.diagnostics import Finding, Place, Severity, Span
from procgen.model.answer import Answer
from procgen.release.codec import RecordError
from procgen.release.files import (
    FOLDER,
    LIST_FILE,
    approval_file,
    approval_numbers,
    read_approval,
    read_list,
    read_release,
    release_file,
    release_number,
)
from procgen.release.record import identity, sha256
from procgen.results.release import Approval, Chain, Released, ReleaseList

RULES: Mapping[str, str] = {
    "answers-in-no-release": "Answers to differences are carried by no release.",
    "release-altered": "A released file is not what it was when it was released.",
    "release-missing": "A released file is not there any more.",
    "release-out-of-order": "A release does not follow the one before it.",
    "release-unlisted": "A file among the releases was not written by a release.",
}
"""Every rule that reading a chain can find, with its meaning in one line."""

_TOP = Span(1, 1, 1, 1)
_RESTORE = "put back the file as it was released, from version control or a copy; a release is never edited"


def chains(files: Mapping[str, str]) -> Mapping[str, Chain]:
    """The chain of every station that has releases; `files` maps paths such as `K1B/releases/001.json`."""
    stations: dict[str, dict[str, str]] = {}
    for path in sorted(files):
        station, _, name = path.split("/", 2)
        stations.setdefault(station, {})[name] = files[path]
    return {station: read_chain(station, texts) for station, texts in stations.items()}


def read_chain(station: str, files: Mapping[str, str]) -> Chain:
    """The chain of one station from the texts of its releases folder, by name."""
    reading = _Reading(station, files)
    reading.read()
    return Chain(station, tuple(reading.releases), reading.listed, tuple(reading.findings))


def all_gone(answers: Mapping[str, Sequence[Answer]], known: Mapping[str, Chain]) -> Iterator[Finding]:
    """Stations without a release whose answers can only have been given to one; by the station's code."""
    for station, given in answers.items():
        if given and station not in known:
            yield Finding(
                "release-missing",
                f"{station} has no releases, and answers to what differs from one",
                given[0].place,
                Severity.ERROR,
                f"put back the folder {station}/{FOLDER} from version control or a copy; if nothing was ever"
                " released, take the answers out",
            )


def waiting(answers: Mapping[str, Sequence[Answer]], known: Mapping[str, Chain]) -> Iterator[Finding]:
    """Answers that no release carries, of stations that have released something; by the station's code.

    They wait for the next release. Where the last releases were taken away, and out of the list as well, they
    are also the one trace that is left of them.
    """
    for station, given in answers.items():
        chain = known.get(station)
        if chain is None or chain.findings or not chain.releases:
            continue
        carried = {one for released in chain.releases for one in released.release.answers}
        fresh = [one for one in given if one not in carried]
        if fresh:
            last = chain.releases[-1].release
            count = "1 answer" if len(fresh) == 1 else f"{len(fresh)} answers"
            yield Finding(
                "answers-in-no-release",
                f"{count} of {station} in no release; the last is revision {last.number} of {last.date}",
                fresh[0].place,
                Severity.ADVICE,
                f"release them with the next revision; if revision {last.number} was not the last one,"
                f" put back what is gone from {station}/{FOLDER} from version control or a copy",
            )


@dataclass
class _Reading:
    """One chain on its way."""

    station: str
    files: Mapping[str, str]
    listed: ReleaseList = field(default_factory=ReleaseList)
    releases: list[Released] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    has_list: bool = False
    """Whether there is a list that can be read: without one nothing can be missing in it."""
    altered: frozenset[str] = frozenset()
    """The files that are not as they were released."""

    def read(self) -> None:
        """Compare the files with the list, then each release with the one before it."""
        if LIST_FILE not in self.files:
            if self.files:
                self.say(
                    "release-missing", LIST_FILE, f"the list of {self.station}'s releases is gone", _RESTORE
                )
        else:
            self._read_list()
        self.altered = frozenset(self._altered())
        for name in sorted(self.files, key=lambda one: (release_number(one) or 0, one)):
            if release_number(name) is not None and name not in self.altered:
                self._read_release(name)
        self._gaps()
        self._settle()

    def _settle(self) -> None:
        """A file that was being written is there by now, or it was never written."""
        coming = self.listed.coming
        there = coming and coming[0] in self.files and coming[0] not in self.altered
        arrived = dict([coming]) if coming and there else {}
        self.listed = ReleaseList({**self.listed.files, **arrived})

    def say(self, rule: str, name: str, message: str, suggestion: str) -> None:
        """Note what is wrong with a file."""
        place = Place(f"{self.station}/{FOLDER}/{name}", span=_TOP)
        self.findings.append(Finding(rule, message, place, Severity.ERROR, suggestion))

    def _read_list(self) -> None:
        try:
            self.listed = read_list(self.files[LIST_FILE])
            self.has_list = True
        except RecordError as error:
            self.say("release-altered", LIST_FILE, f"the list of releases cannot be read: {error}", _RESTORE)

    def _altered(self) -> Iterator[str]:
        """The files that are not as the list has them; each is named."""
        coming = dict([self.listed.coming]) if self.listed.coming else {}
        released = {digest: name for name, digest in self.listed.files.items()}
        for name, text in self.files.items():
            known = self.listed.files.get(name) or coming.get(name)
            if name == LIST_FILE:
                continue
            if known is None:
                yield name
                if self.has_list:
                    self.say(
                        "release-unlisted",
                        name,
                        f"“{name}” is not in the list of releases: no release or approval wrote it",
                        "take it out of the folder; use procgen release and procgen approve",
                    )
            elif sha256(text) != known:
                yield name
                other = released.get(sha256(text))
                if other is not None:
                    self._out_of_order(name, f"holds what was released as “{other}”")
                else:
                    self.say("release-altered", name, f"“{name}” was altered after it was released", _RESTORE)
        for name in self.listed.files:
            if name not in self.files:
                self.say("release-missing", name, f"“{name}” was released and is gone", _RESTORE)

    def _read_release(self, name: str) -> None:
        text, number = self.files[name], release_number(name)
        try:
            release, record = read_release(text)
        except RecordError as error:
            self.say("release-altered", name, f"the release cannot be read: {error}", _RESTORE)
            return
        if (release.station, release.number) != (self.station, number):
            self._out_of_order(name, f"says it is revision {release.number} of {release.station}")
        elif identity(record) != release.identity:
            self.say("release-altered", name, "the record is not the one that was released", _RESTORE)
        elif not self._follows(release.number, release.previous):
            self._out_of_order(name, "was not made after the release that stands before it")
        else:
            self.releases.append(
                Released(release, text, record, tuple(self._approvals(release.number, text)))
            )

    def _follows(self, number: int, previous: str) -> bool:
        name = release_file(number - 1)
        if number == 1:
            return previous == ""
        # A release whose forerunner is gone or altered cannot be judged; that it is so is said elsewhere.
        return name not in self.files or name in self.altered or sha256(self.files[name]) == previous

    def _approvals(self, number: int, text: str) -> Iterator[Approval]:
        names = [name for name in self.files if (approval_numbers(name) or (0,))[0] == number]
        for nth, name in enumerate(sorted(names, key=lambda one: approval_numbers(one) or (0, 0)), start=1):
            known = self.listed.files.get(name) or dict([self.listed.coming or ("", "")]).get(name)
            if known != sha256(self.files[name]):
                continue  # said already
            try:
                approval = read_approval(self.files[name])
            except RecordError as error:
                self.say("release-altered", name, f"the approval cannot be read: {error}", _RESTORE)
                continue
            if (approval.station, approval.number, approval.release) != (self.station, number, sha256(text)):
                self._out_of_order(name, "approves another release")
            elif name != approval_file(number, nth):
                self._out_of_order(name, "does not follow the approval before it")
            else:
                yield approval

    def _out_of_order(self, name: str, what: str) -> None:
        self.say("release-out-of-order", name, f"“{name}” {what}", _RESTORE)

    def _gaps(self) -> None:
        """Numbers run from 1 without a gap. Where the list misses one too, nobody else has said so."""
        known = {*self.listed.files, *(self.listed.coming or ())[:1]} if self.has_list else set(self.files)
        there = {number for name in self.files if (number := release_number(name)) and name in known}
        for number in range(1, max(there, default=0)):
            name = release_file(number)
            if number not in there and name not in self.listed.files:
                self.say("release-missing", name, f"revision {number} of {self.station} is gone", _RESTORE)
