"""Built pages opened in a browser, and watched."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import BrowserContext, Page

CARD = "K1B/cards/TR-FWD-loading.html"


@dataclass
class Watched:
    """A page, and what it complained of or asked the world for."""

    page: Page
    trouble: list[str] = field(default_factory=list)


def opened(context: BrowserContext, address: str) -> Watched:
    watched = Watched(context.new_page())
    watched.page.on("console", lambda message: watched.trouble.append(f"console: {message.text}"))
    watched.page.on("pageerror", lambda error: watched.trouble.append(f"error: {error}"))
    watched.page.on("request", lambda request: _note_request(watched, request.url))
    watched.page.goto(address)
    return watched


def _note_request(watched: Watched, address: str) -> None:
    if not address.startswith(("file:", "data:", "blob:")):
        watched.trouble.append(f"request: {address}")


def card(context: BrowserContext, built: Path, path: str = CARD) -> Watched:
    return opened(context, (built / path).as_uri())


def shown(page: Page) -> str:
    """The one screen that is shown."""
    visible = page.locator(".screen:visible")
    assert visible.count() == 1
    return visible.first.get_attribute("id") or visible.first.get_attribute("data-block") or ""
