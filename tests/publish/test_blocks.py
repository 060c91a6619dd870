"""The hooks for the builder change its speed and its search, not its pages."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from procgen.publish import blocks

_PAGES = {
    "index.md": """# Home

<div>

<p>a & b &lt; “c” <b>bold</b></p>


<svg><text>drawn</text></svg>

</div>

<p data-search-exclude="x">*not Markdown*</p>

## Next {: #next }

<div>
# no heading
</div>
""",
    "close.md": """# Close

<div>one</div>
## At once {: #at-once }
<p>after</p>

### Deep {: #deep }

<p>x</p>
<ul>
<li>y</li>
</ul>
<script>if (1 < 2) { document.title = '<b>'; }</script>
""",
    "plain.md": "# Plain\n\nWords of *Markdown*, and `code`.\n\n## More {: #more }\n\n- one\n- two\n",
    "bare.md": "<p>No heading at all.</p>\n",
}


def _built(folder: Path, name: str, more: dict[str, object]) -> Path:
    (folder / "docs").mkdir(exist_ok=True)
    for page, text in _PAGES.items():
        (folder / "docs" / page).write_text(text, encoding="utf-8")
    settings = {
        "site_name": "Trial",
        "use_directory_urls": False,
        "theme": {"name": "material", "font": False},
        "plugins": ["search"],
        "markdown_extensions": ["attr_list"],
        **more,
    }
    (folder / f"{name}.yml").write_text(yaml.safe_dump(settings), encoding="utf-8")
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"]
    command += ["--config-file", str(folder / f"{name}.yml"), "--site-dir", str(folder / name)]
    cache = folder / "compiled"
    cache.mkdir(exist_ok=True)
    subprocess.run(
        command,
        check=True,
        cwd=folder,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1", blocks.TEMPLATE_CACHE: str(cache)},
    )
    return folder / name


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The same pages as the builder makes them alone, and with the hooks."""
    folder = tmp_path_factory.mktemp("blocks")
    return _built(folder, "alone", {}), _built(folder, "hooked", {"hooks": [blocks.__file__]})


@pytest.mark.parametrize("page", [name.replace(".md", ".html") for name in _PAGES])
def test_a_page_is_the_same_but_for_empty_lines(both: tuple[Path, Path], page: str) -> None:
    alone, hooked = (re.sub(r"\n\s*\n", "\n", (one / page).read_text(encoding="utf-8")) for one in both)
    assert "<title>" in alone
    assert hooked == alone


def test_words_are_found_and_drawings_are_not(both: tuple[Path, Path]) -> None:
    alone, hooked = (
        json.loads((one / "search" / "search_index.json").read_text(encoding="utf-8"))["docs"] for one in both
    )
    assert [one["location"] for one in hooked] == [one["location"] for one in alone]
    words = " ".join(one["text"] for one in hooked)
    assert "bold" in words
    assert "after" in words
    assert "Words of" in words
    assert "drawn" not in words
    assert "document.title" not in words
