"""Options and fixtures of all tests."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="write what the golden cases yield now; then read the diff",
    )


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[Path, str], None]:
    """Compare a text with a golden file, or write the file when asked to."""
    update = bool(request.config.getoption("--update-golden"))

    def compare(path: Path, text: str) -> None:
        if update:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
        assert path.exists(), f"{path.name} does not exist: run pytest --update-golden and read it"
        assert text == path.read_text("utf-8"), f"{path.name} differs: read it, then pytest --update-golden"

    return compare
