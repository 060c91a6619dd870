"""Every mistake, in the order in which a writer works: text, data, procedures."""

from __future__ import annotations

from tests.mistakes.in_data import IN_DATA
from tests.mistakes.in_procedures import IN_PROCEDURES
from tests.mistakes.in_text import IN_TEXT
from tests.mistakes.mistake import Mistake

MISTAKES: tuple[Mistake, ...] = (*IN_TEXT, *IN_DATA, *IN_PROCEDURES)
