"""The built demonstration and a browser, once for all tests."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, sync_playwright

from procgen.disk import packaged
from procgen.publish import build
from tests.publish.sites import sites


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The whole demonstration, built."""
    out = tmp_path_factory.mktemp("published") / "site"
    build(sites(), packaged.templates(), out)
    return out


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium."""
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
    found = next(filter(None, map(shutil.which, names)), None)
    assert found, f"these tests need a browser on the path: install one of {', '.join(names)}"
    with (
        sync_playwright() as playwright,
        playwright.chromium.launch(executable_path=found, args=["--no-sandbox"]) as launched,
    ):
        yield launched


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A phone."""
    opened = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True)
    yield opened
    opened.close()
