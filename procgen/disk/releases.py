"""A station's releases on disk: read as they are, added to one file at a time, never rewritten."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from procgen.diagnostics import ProcgenError
from procgen.disk.atomic import clear_half_written, make_folder, only_writer, write_whole

RELEASES = "releases"
"""The folder beside a station's description that holds its releases."""


def read_releases(folder: Path) -> Mapping[str, str]:
    """The text of every file in a releases folder, by name; none where there is no such folder.

    Hidden files, which a killed writer may leave, are passed over. Bytes that are no UTF-8 are kept, so
    that a damaged file can still be told from a whole one. Raises `ProcgenError` where a file cannot be read.
    """
    if not folder.is_dir():
        return {}
    return {
        path.name: read_as_it_is(path)
        for path in sorted(folder.iterdir())
        if path.is_file() and not path.name.startswith(".")
    }


def read_as_it_is(path: Path) -> str:
    """A file's bytes as text, line breaks and all; bytes that are no UTF-8 are kept (`surrogateescape`)."""
    try:
        return path.read_bytes().decode("utf-8", "surrogateescape")
    except OSError as error:
        raise ProcgenError(f"{path}: {error.strerror or error}") from error


@contextmanager
def writing(station: Path) -> Iterator[Path]:
    """Hold a station's folder while releasing or approving; yields its releases folder, there or not yet.

    Raises `ProcgenError` where another process holds it.
    """
    with only_writer(station, "releasing or approving"):
        releases = station / RELEASES
        clear_half_written(releases)
        yield releases


def add(releases: Path, name: str, text: str, lists: tuple[str, str], list_name: str) -> None:
    """Add a file to a releases folder, between two writings of its list.

    The first list says that the file is coming, the second that it is there; whoever is killed between
    any two steps leaves a chain that is in order, with the file or without it. Never writes over a file.
    """
    before, after = lists
    if (releases / name).exists():
        raise ProcgenError(f"{releases / name} is there already: a release is never rewritten")
    make_folder(releases)
    write_whole(releases / list_name, before)
    write_whole(releases / name, text)
    write_whole(releases / list_name, after)
