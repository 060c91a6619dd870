"""Nothing that a text holds makes loading raise, and nothing is left out without a word."""

from __future__ import annotations

import json

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from procgen.diagnostics import Severity
from procgen.load import RULES, Loaded, load_procedure
from tests.load.full import FILES, HAZARDS
from tests.support import load_texts, schemas

LENIENT = settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow])

WORDS = st.sampled_from(
    [
        "hold", "bays", "steps", "outside", "A", "B", "stop", "in", "raised", "2 m", "3 kg", "WB 1", "on",
        "go", "x", "max", "source", "value", "between", "fixed", "check", "drive", "2026-01-01", "",
    ]
)  # fmt: skip
SCALARS = st.none() | st.booleans() | st.integers() | WORDS | st.text(max_size=6)
DATA = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(WORDS | st.text(max_size=4), inner, max_size=4)
    ),
    max_leaves=12,
)


def _sound(loaded: Loaded) -> None:
    """Findings are listed rules with a way out, at places that exist; what is left out has an error."""
    for finding in loaded.findings:
        assert finding.rule in RULES
        assert finding.message
        assert finding.suggestion
        f"{finding.message} {finding.suggestion}".encode()
        for place in (finding.place, *(related.place for related in finding.related)):
            if place.file in loaded.documents:
                assert loaded.documents[place.file].span(place).line >= 1
    built = {hold.place.file for hold in loaded.network.holds.values()}
    built |= {station.place.file for station in loaded.network.stations.values()}
    wrong = {finding.place.file for finding in loaded.findings if finding.severity is Severity.ERROR}
    for file in loaded.documents:
        if file.startswith("fleet/holds/") or file.endswith("station.yaml"):
            assert file in built or file in wrong, file


@given(file=st.sampled_from(sorted(FILES)), text=st.text())
@LENIENT
def test_any_text(file: str, text: str) -> None:
    _sound(load_texts({**FILES, file: text}, HAZARDS))


@given(file=st.sampled_from([*sorted(FILES), "hazards.yaml"]), data=DATA)
@LENIENT
def test_any_data(file: str, data: object) -> None:
    text = json.dumps(data)
    if file == "hazards.yaml":
        _sound(load_texts(FILES, text))
    else:
        _sound(load_texts({**FILES, file: text}, HAZARDS))


LINES = {file: text.splitlines() for file, text in {**FILES, "hazards.yaml": HAZARDS}.items()}
SPOTS = [(file, index) for file, lines in sorted(LINES.items()) for index in range(len(lines))]


@given(spot=st.sampled_from(SPOTS), data=st.data())
@settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.too_slow])
def test_any_change_of_a_line(spot: tuple[str, int], data: st.DataObject) -> None:
    """A word put in another's stead, a line lost, doubled, indented, cut or swapped with another."""
    file, index = spot
    lines = list(LINES[file])
    line = lines[index]
    change = data.draw(st.sampled_from(["word", "drop", "double", "indent", "cut", "value", "swap"]))
    if change == "word":
        words = line.split(" ")
        words[data.draw(st.integers(0, len(words) - 1))] = data.draw(WORDS)
        lines[index] = " ".join(words)
    elif change == "drop":
        del lines[index]
    elif change == "double":
        lines.insert(index, line)
    elif change == "indent":
        lines[index] = "  " + line
    elif change == "cut":
        lines[index] = line[: data.draw(st.integers(0, len(line)))]
    elif change == "value":
        lines[index] = f"{line.split(':')[0]}: {json.dumps(data.draw(DATA))}"
    else:
        other = data.draw(st.integers(0, len(lines) - 1))
        lines[index], lines[other] = lines[other], lines[index]
    text = "\n".join(lines) + "\n"
    if file == "hazards.yaml":
        _sound(load_texts(FILES, text))
    else:
        _sound(load_texts({**FILES, file: text}, HAZARDS))


@given(text=st.text() | DATA.map(json.dumps))
@LENIENT
def test_any_text_as_a_procedure(text: str) -> None:
    network = load_texts(FILES, HAZARDS).network
    procedure, _, findings = load_procedure("any.yaml", text, network, schemas())
    assert procedure is not None or findings


@given(names=st.permutations(sorted(FILES)))
@settings(deadline=None, max_examples=10)
def test_the_order_of_files_does_not_matter(names: list[str]) -> None:
    files = {name: FILES[name].replace("10 m", "10") for name in names}
    one, other = load_texts(files, HAZARDS), load_texts({name: files[name] for name in FILES}, HAZARDS)
    assert one.network == other.network
    assert one.findings == other.findings


@given(data=st.data())
@settings(deadline=None, max_examples=20, suppress_health_check=[HealthCheck.too_slow])
def test_the_order_of_keys_does_not_matter(data: st.DataObject) -> None:
    """A hold with the keys of every mapping in another order is an equal hold."""
    loaded = load_texts(FILES, HAZARDS)
    shuffled = json.dumps(_shuffle(loaded.documents["fleet/holds/FULL.yaml"].data, data))
    other = load_texts({**FILES, "fleet/holds/FULL.yaml": shuffled}, HAZARDS)
    assert other.findings == ()
    assert other.network.holds == loaded.network.holds


def _shuffle(value: object, data: st.DataObject) -> object:
    if isinstance(value, dict):
        keys = data.draw(st.permutations(sorted(value)))
        return {key: _shuffle(value[key], data) for key in keys}
    if isinstance(value, list):
        return [_shuffle(item, data) for item in value]
    return value
