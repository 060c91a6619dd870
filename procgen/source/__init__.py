"""Our YAML subset: plain data with a place for every value."""

from procgen.source.document import Document
from procgen.source.reader import read_document

__all__ = ["Document", "read_document"]
