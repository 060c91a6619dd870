"""Read our YAML subset strictly.

The subset is what a writer needs and nothing that surprises: mappings with text keys, lists, text,
whole numbers, `true` and `false`. Anchors, aliases, tags, merge keys, several documents in a file and
plain words that YAML 1.1 turns into something else (`no`, `12:30`, `010`, `1e3`; the YAML 1.2.2 core
schema, 10.3.2, reads most of them otherwise) are findings. Reading never raises and never stops at the
first mistake except where the syntax is so broken that nothing can be read behind it.
"""

from __future__ import annotations

import re
from collections import deque
from dataclasses import dataclass, field
from functools import lru_cache

import yaml
from yaml.composer import Composer
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode
from yaml.resolver import Resolver

from procgen.diagnostics import Finding, Place, Related, Route, Span
from procgen.source.document import Data, Document
from procgen.source.syntax import in_words

_WHOLE = re.compile(r"-?(?:0|[1-9][0-9]{0,17})")
_SURPRISES = (
    (re.compile(r"(?i:yes|no|on|off)"), "true or false"),
    (re.compile(r"(?:True|TRUE|False|FALSE)"), "true or false"),
    (re.compile(r"(?i:null)|~"), "nothing"),
    (re.compile(r"[-+]?0[0-7_]+"), "an octal number"),
    (re.compile(r"[-+]?0[box][0-9a-fA-F_]+"), "a number in another base"),
    (re.compile(r"[-+]?\d[\d_]*(?::[0-5]?\d)+(?:\.\d*)?"), "a number in base sixty"),
    (re.compile(r"[-+]?(?:\d[\d_]*)?\.?\d+[eE][-+]?\d+"), "a number with an exponent"),
    (re.compile(r"[-+]?\d[\d_]*_[\d_]*(?:\.\d*)?"), "a number with underscores"),
    (re.compile(r"[-+]?\.(?i:inf|nan)"), "a number that is none"),
)
_DEEPEST = 50
_KNOWN_TAGS = ("tag:yaml.org,2002:map", "tag:yaml.org,2002:seq", "tag:yaml.org,2002:str")


@dataclass
class _Reading:
    file: str
    findings: list[Finding] = field(default_factory=list)
    value_spans: dict[Route, Span] = field(default_factory=dict)
    key_spans: dict[Route, Span] = field(default_factory=dict)

    def say(self, rule: str, message: str, span: Span, suggestion: str, *related: Related) -> None:
        place = Place(self.file, span=span)
        self.findings.append(Finding(rule, message, place, suggestion=suggestion, related=tuple(related)))


@lru_cache(maxsize=64)
def read_document(file: str, text: str) -> tuple[Document, tuple[Finding, ...]]:
    """Read one file's text.

    `file` is the name to show. Returns the document (its `data` is None when nothing could be read)
    and every finding of the reading, in the order of the text. Reading is pure and takes most of the
    time of a check, so a text that was just read is not read again; nobody may change what it holds.
    """
    reading = _Reading(file)
    node = _compose(text, reading)
    data: Data = None
    if node is not None:
        data = _value(node, (), reading)
    if data is None and not reading.findings:
        reading.say(
            "empty-file",
            "the file holds nothing",
            Span(1, 1, 1, 1),
            "write the description or delete the file",
        )
    document = Document(file, text, data, reading.value_spans, reading.key_spans)
    return document, tuple(reading.findings)


def _compose(text: str, reading: _Reading) -> Node | None:
    try:
        events = _events(text, reading)
    except yaml.MarkedYAMLError as error:
        _broken_syntax(error, reading)
        return None
    except yaml.reader.ReaderError as error:
        before = text[: error.position]
        line = before.count("\n") + 1
        column = len(before) - (before.rfind("\n") + 1) + 1
        reading.say(
            "yaml-syntax",
            f"a character that text cannot hold (code {error.character})",
            Span(line, column, line, column + 1),
            "delete the character",
        )
        return None
    _refuse_features(events, reading)
    return None if reading.findings else _Replay(events).get_single_node()


def _events(text: str, reading: _Reading) -> list[yaml.Event]:
    """The text as events, up to where it nests too deep."""
    events: list[yaml.Event] = []
    depth = 0
    for event in yaml.parse(text, Loader=yaml.SafeLoader):
        events.append(event)
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1
        if depth > _DEEPEST:
            way_out = "close the brackets, or look at the indents"
            reading.say("yaml-syntax", "lists in lists, too deep to be read", _span(event), way_out)
            break
    return events


def _broken_syntax(error: yaml.MarkedYAMLError, reading: _Reading) -> None:
    words = in_words(error.problem)
    found, start = error.problem_mark, error.context_mark
    here, other, note = (
        (start, found, "here it goes wrong") if words.at_start else (found, start, "it begins here")
    )
    here = here or found or start
    related = () if other is None or other is here else (Related(_at(other, reading), note),)
    span = _at(here, reading).span if here else None
    reading.say("yaml-syntax", words.message, span or Span(1, 1, 1, 2), words.way_out, *related)


def _at(mark: yaml.Mark, reading: _Reading) -> Place:
    return Place(reading.file, span=Span(mark.line + 1, mark.column + 1, mark.line + 1, mark.column + 2))


class _Replay(Composer, Resolver):
    """Composes nodes from events that were already parsed, so that a text is scanned once."""

    def __init__(self, events: list[yaml.Event]) -> None:
        Composer.__init__(self)
        Resolver.__init__(self)
        self._events = deque(events)

    def check_event(self, *choices: type[yaml.Event]) -> bool:
        return bool(self._events) and (not choices or isinstance(self._events[0], choices))

    def peek_event(self) -> yaml.Event | None:
        return self._events[0] if self._events else None

    def get_event(self) -> yaml.Event | None:
        return self._events.popleft() if self._events else None


def _refuse_features(events: list[yaml.Event], reading: _Reading) -> None:
    """Look through the events for anchors, aliases, tags and a second document."""
    documents = 0
    for event in events:
        span = _span(event)
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents == 2:
                reading.say(
                    "yaml-feature",
                    "a second document in one file",
                    span,
                    "put each document in a file of its own",
                )
        elif isinstance(event, yaml.AliasEvent):
            reading.say("yaml-feature", f"an alias (*{event.anchor})", span, "write the value out")
        elif isinstance(event, yaml.NodeEvent):
            if event.anchor is not None:
                reading.say("yaml-feature", f"an anchor (&{event.anchor})", span, "write the value out")
            tag = getattr(event, "tag", None)
            if tag is not None and tag not in _KNOWN_TAGS:
                reading.say("yaml-feature", f"a tag ({tag})", span, "delete the tag; put text in quotes")


def _span(thing: object) -> Span:
    start, end = getattr(thing, "start_mark"), getattr(thing, "end_mark")  # noqa: B009
    return Span(start.line + 1, start.column + 1, end.line + 1, end.column + 1)


def _value(node: Node, route: Route, reading: _Reading) -> Data:
    reading.value_spans.setdefault(route, _span(node))
    if isinstance(node, MappingNode):
        return _mapping(node, route, reading)
    if isinstance(node, SequenceNode):
        return [_value(item, (*route, index), reading) for index, item in enumerate(node.value)]
    assert isinstance(node, ScalarNode)  # noqa: S101 - the composer knows no fourth kind
    return _scalar(node, reading)


def _mapping(node: MappingNode, route: Route, reading: _Reading) -> Data:
    result: dict[str, Data] = {}
    for key_node, value_node in node.value:
        span = _span(key_node)
        if not isinstance(key_node, ScalarNode):
            reading.say("key-not-text", "a key that is not text", span, "write a plain word as the key")
            continue
        key = _text(key_node)
        if key == "<<" and key_node.style is None:
            reading.say("yaml-feature", "a merge key (<<)", span, "write the values out")
            continue
        if not isinstance(_scalar(key_node, reading), str):
            shown, way_out = (key, f'put it in quotes: "{key}"') if key else ("(nothing)", "write the key")
            reading.say("key-not-text", f"the key {shown} is not text", span, way_out)
        if key in result:
            first = Place(reading.file, (*route, key), on_key=True)
            reading.say(
                "duplicate-key",
                f"“{key}” stands twice in the same place; only one of them could count",
                span,
                "delete one, or give it its own name",
                Related(first, "the first one"),
            )
            _value(value_node, (*route, key), _Reading(reading.file, reading.findings))
            continue
        reading.key_spans[(*route, key)] = span
        result[key] = _value(value_node, (*route, key), reading)
    return result


def _text(node: ScalarNode) -> str:
    """The text of a scalar, with pairs of surrogate escapes (JSON writes them) made one character."""
    text: str = node.value
    return text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def _scalar(node: ScalarNode, reading: _Reading) -> Data:
    text = _text(node)
    if node.style is not None:
        return text
    if text == "":
        return None
    if text in ("true", "false"):
        return text == "true"
    if _WHOLE.fullmatch(text):
        return int(text)
    for pattern, becomes in _SURPRISES:
        if pattern.fullmatch(text):
            reading.say(
                "ambiguous-plain-value",
                f"some readers of YAML take plain {text} for {becomes}",
                _span(node),
                f'{_instead_of(becomes, text)}put it in quotes if you mean the text: "{text}"',
            )
            return text
    return text


def _instead_of(becomes: str, text: str) -> str:
    """What to write where the word stands for true or false; nothing for a number or a time."""
    if becomes != "true or false":
        return ""
    return f"write {'true' if text.lower() in ('yes', 'on', 'true') else 'false'} if that is meant, or "
