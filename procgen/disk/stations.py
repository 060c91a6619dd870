"""Read the writer's folder."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from procgen.diagnostics import ProcgenError

_ENDINGS = (".yaml", ".yml", ".json")


def read_stations(folder: Path) -> Mapping[str, str]:
    """Every description below `folder`, by its path relative to it, in sorted order.

    Hidden files and folders are passed over. Raises `ProcgenError` when there is no such folder, when it
    holds no description, or when a file cannot be read as UTF-8 text.
    """
    if not folder.is_dir():
        raise ProcgenError(
            f"{folder}: there is no such folder; name the folder that holds “fleet” and the stations"
        )
    found: dict[str, str] = {}
    for path in sorted(folder.rglob("*")):
        relative = path.relative_to(folder)
        if path.suffix in _ENDINGS and path.is_file() and not any(p.startswith(".") for p in relative.parts):
            found[relative.as_posix()] = read_text(path)
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
