"""Read the writer's folder."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from procgen.diagnostics import ProcgenError
from procgen.disk.releases import RELEASES, read_as_it_is

_ENDINGS = (".yaml", ".yml", ".json")
_WATCHED = ("holds", "procedures")
"""Folders in which a file of another ending is most likely a description that nobody would miss."""


def read_stations(folder: Path) -> Mapping[str, str]:
    """Every description and every released file below `folder`, by its path relative to it, in sorted order.

    Hidden files and folders are passed over. Other files among holds and procedures are named with no
    text, so that nothing there goes unread without a word; Markdown beside them is the writer's own.
    Raises `ProcgenError` when there is no such folder, when it holds no description, or when a file
    cannot be read as UTF-8 text.
    """
    if folder.is_file():
        root = next((one for one in folder.resolve().parents if (one / "fleet").is_dir()), None)
        raise ProcgenError(
            f"{folder}: this is one file, and a description is checked with all that it speaks of: name the"
            f" folder that holds “fleet” and the stations{f', {root.name}' if root else ''}"
        )
    if not folder.is_dir():
        raise ProcgenError(
            f"{folder}: there is no such folder; name the folder that holds “fleet” and the stations"
        )
    found: dict[str, str] = {}
    for path in sorted(folder.rglob("*")):
        relative = path.relative_to(folder)
        if not path.is_file() or any(part.startswith(".") for part in relative.parts):
            continue
        if path.parent.name == RELEASES:
            found[relative.as_posix()] = read_as_it_is(path)
        elif path.suffix in _ENDINGS:
            found[relative.as_posix()] = read_text(path)
        elif path.parent.name in _WATCHED and path.suffix != ".md":
            found[relative.as_posix()] = ""
    if not found:
        raise ProcgenError(f"{folder}: no description (*.yaml) in this folder")
    return found


def read_text(path: Path) -> str:
    """One file's text; raises `ProcgenError` when it cannot be read."""
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise ProcgenError(f"{path}: not UTF-8 text (byte {error.start}); save it as UTF-8") from error
    except OSError as error:
        raise ProcgenError(f"{path}: {error.strerror or error}") from error
