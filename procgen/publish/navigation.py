"""The builder's file of a site: its settings and its navigation."""

from __future__ import annotations

from collections.abc import Sequence

import yaml
from jinja2 import Environment

from procgen.publish.changes import changes_file
from procgen.publish.rendering import source
from procgen.publish.words import capital
from procgen.results.edition import Edition

SHEETS = ("diagram.css", "manual.css")
"""The style sheets of the builder's pages."""


def navigation(edition: Edition) -> list[dict[str, object]]:
    """Every page of a station, hold by hold."""
    site = edition.site
    holds: list[dict[str, object]] = []
    for hold in site.holds:
        pages: list[dict[str, str]] = [
            {"Hold and limits": f"holds/{hold.hold.name}.md"},
            {"Limits in full": f"limits/{hold.hold.name}.md"},
            {"Pieces, straps, crew, wind, times": f"loads/{hold.hold.name}.md"},
        ]
        pages += [{capital(page.title): f"procedures/{page.name}.md"} for page in hold.pages]
        guided = {guide.name for guide in hold.recoveries}
        pages += [
            {f"{capital(page.title)}: half way": f"recovery/{page.name}.md"}
            for page in hold.pages
            if page.name in guided
        ]
        if hold.out_of_service is not None:
            pages.append({"An item out of service": f"out-of-service/{hold.hold.name}.md"})
        holds.append({f"{hold.hold.name} {hold.hold.title}": pages})
    return [
        {"Station": "index.md"},
        *holds,
        {"What changed": _changes(edition)},
        {"Revision record": "revisions.md"},
        {"Signal words": "signal-words.md"},
    ]


def _changes(edition: Edition) -> object:
    """The page of what changed, or one for each revision that it is told from."""
    if len(edition.changes) < 2:
        return "changes.md"
    return [
        {f"Since revision {one.since}": f"{changes_file(edition, one.since)}.md"} for one in edition.changes
    ]


def builder_file(name: str, footer: str, navigation: Sequence[object]) -> str:
    """The builder's settings: nothing of our own in it, and nothing that asks for anything from outside."""
    palette = [
        {
            "scheme": "default",
            "primary": "custom",
            "toggle": {"icon": "material/weather-night", "name": "Dark"},
        },
        {
            "scheme": "slate",
            "primary": "custom",
            "toggle": {"icon": "material/weather-sunny", "name": "Light"},
        },
    ]
    settings = {
        "site_name": name,
        "docs_dir": "docs",
        "use_directory_urls": False,
        "copyright": footer,
        "theme": {"name": "material", "font": False, "language": "en", "palette": palette},
        "extra": {"generator": False},
        "extra_css": [f"assets/{sheet}" for sheet in SHEETS],
        "plugins": ["search"],
        "markdown_extensions": ["attr_list"],
        "nav": list(navigation),
    }
    return yaml.safe_dump(settings, sort_keys=False, allow_unicode=True, width=100)


def sheets(env: Environment) -> dict[str, str]:
    """The style sheets that a site brings along, by path."""
    return {f"docs/assets/{name}": source(env, name) for name in (*SHEETS, "short.css")}
