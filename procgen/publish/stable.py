"""The address of a revision that stays: `CODE/rNNN/`, also while its pages lie at `CODE/`.

The pages of the revision that is shown first are not built twice. At their stable addresses stand small
pages that lead there; once another revision is shown first, the pages themselves stand there.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from jinja2 import Environment

from procgen.publish.control import control_of
from procgen.results.edition import Edition


def stable_pages(env: Environment, edition: Edition, files: Iterable[str]) -> Mapping[str, str]:
    """By path, the pages that lead from the stable address to each page of the edition shown first.

    `files` are paths of the tree. There are none for an edition in a folder of its own, nor for a draft.
    """
    if edition.folder or edition.standing is None:
        return {}
    folder = edition.stable
    template = env.get_template("stable.html")
    found: dict[str, str] = {}
    for file in files:
        page = _page(file)
        if page:
            found[f"docs/{folder}/{page}"] = template.render(
                station=edition.site.station,
                revision=control_of(edition, page).revision,
                href="../" * (page.count("/") + 1) + page,
            )
    return found


def _page(file: str) -> str:
    """The address that a file of the tree has when built; empty where it is no page."""
    path = file.removeprefix("docs/")
    if path == file or not path.endswith((".md", ".html")):
        return ""
    return f"{path.removesuffix('.md')}.html" if path.endswith(".md") else path
