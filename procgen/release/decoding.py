"""Plain JSON data back to records, by the types of their fields: what `encoding` writes, and nothing else."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from procgen.release.codec import CLASS, LINES, Json, LineTable, RecordError, listed, shown
from procgen.release.forms import Choice, Many, Pairs, Row, form, is_record, slots
from procgen.units import UNITS, Quantity, Unit


def decode(data: Json, hint: Any, table: LineTable) -> Any:
    """The value that `encode` made the data of. Raises `RecordError` where there is none."""
    shape = form(hint)
    if isinstance(shape, Many):
        items = [_at(n, decode, one, shape.item, table) for n, one in enumerate(listed(data))]
        return frozenset(items) if shape.is_set else tuple(items)
    if isinstance(shape, Row):
        return tuple(
            _at(n, decode, one, each, table)
            for n, (one, each) in enumerate(zip(listed(data, len(shape.items)), shape.items, strict=True))
        )
    if isinstance(shape, Pairs):
        return dict(_at(n, _pair, one, shape, table) for n, one in enumerate(listed(data)))
    if isinstance(shape, Choice):
        return _decode_choice(data, shape, table)
    if is_record(shape):
        return _decode_record(data, shape, table)
    return _decode_plain(data, shape, table)


def _pair(data: Json, shape: Pairs, table: LineTable) -> tuple[Any, Any]:
    key, value = listed(data, 2)
    name = decode(key, shape.key, table)
    return name, _at(str(name), decode, value, shape.value, table)


def _decode_choice(data: Json, shape: Choice, table: LineTable) -> Any:
    if data is None and shape.none:
        return None
    if shape.others:
        return decode(data, shape.others[0], table)
    if shape.plain:
        kind = next((k for k in shape.plain if _is_plain(data, k)), None)
        if kind is None:
            raise RecordError(f"{shown(data)} is none of {', '.join(k.__name__ for k in shape.plain)}")
        return _decode_plain(data, kind, table)
    if len(shape.records) == 1:
        return _decode_record(data, shape.records[0], table)
    name = data.get(CLASS) if isinstance(data, dict) else None
    record = next((one for one in shape.records if one.__name__ == name), None)
    if record is None or not isinstance(data, dict):
        raise RecordError(f"{shown(data)} is none of {', '.join(one.__name__ for one in shape.records)}")
    return _decode_record({key: value for key, value in data.items() if key != CLASS}, record, table)


def _decode_record(data: Json, record: type, table: LineTable) -> Any:
    if not isinstance(data, dict):
        raise RecordError(f"{shown(data)} is no {record.__name__}")
    known = {slot.name: slot for slot in slots(record)}
    strange = sorted(set(data) - set(known))
    if strange:
        raise RecordError(f"{record.__name__} has no “{strange[0]}”")
    found: dict[str, Any] = {}
    for name, slot in known.items():
        if name in data:
            found[name] = _at(name, decode, data[name], slot.hint, table)
        elif slot.has_default:
            found[name] = slot.default()
        else:
            raise RecordError(f"{record.__name__} lacks “{name}”")
    return _made(lambda: record(**found), record)


def _decode_plain(data: Json, kind: type, table: LineTable) -> Any:
    if kind is str and isinstance(data, dict) and set(data) == {LINES}:
        return table.text(data[LINES])
    if kind in (str, int, bool):
        if not _is_plain(data, kind):
            raise RecordError(f"{shown(data)} is not of type {kind.__name__}")
        return data
    if kind is Quantity:
        return _quantity(data)
    if kind is Unit:
        return _unit(data)
    if kind is Fraction:
        return _fraction(data)
    return _made(lambda: kind(data), kind)


def _quantity(data: Json) -> Quantity:
    if not isinstance(data, dict) or not {"exact", "unit"} <= set(data) <= {"exact", "unit", "written"}:
        raise RecordError(f"{shown(data)} is no quantity")
    written = data.get("written", "")
    if not isinstance(written, str):
        raise RecordError(f"{shown(written)} is not text")
    return Quantity(_fraction(data["exact"]), _unit(data["unit"]), written)


def _unit(data: Json) -> Unit:
    unit = UNITS.get(data) if isinstance(data, str) else None
    if unit is None:
        raise RecordError(f"{shown(data)} is no unit")
    return unit


def _fraction(data: Json) -> Fraction:
    try:
        found = Fraction(data) if isinstance(data, str) else None
    except (ValueError, ZeroDivisionError):
        found = None
    if found is None or str(found) != data:
        raise RecordError(f"{shown(data)} is no exact number")
    return found


def _made(make: Callable[[], Any], kind: type) -> Any:
    """A record or an enumeration's member; what its class refuses is refused."""
    try:
        return make()
    except (TypeError, ValueError) as error:
        raise RecordError(f"no {kind.__name__}: {error}") from error


def _is_plain(data: Json, kind: type) -> bool:
    if kind is str:
        return isinstance(data, str) or (isinstance(data, dict) and set(data) == {LINES})
    return type(data) is kind


def _at(where: int | str, step: Callable[..., Any], *arguments: Any) -> Any:
    """Do one step of decoding; a fault in it says where it was."""
    try:
        return step(*arguments)
    except RecordError as error:
        raise RecordError(error.message, (str(where), *error.where)) from None
