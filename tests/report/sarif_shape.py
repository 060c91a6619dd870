"""What OASIS SARIF 2.1.0 asks of the objects that we write, as a JSON Schema of our own.

Source: sarif-schema-2.1.0.json of the errata 01 (JSON Schema draft-04), read on 2026-11-25: which members an
object has, which it must have, their types and least values. No object may have a member that is not listed.
Objects that we do not write are left out: a log that has one fails.
"""

from __future__ import annotations

from typing import Any

_TEXT = {"type": "string"}
_URI = {"type": "string", "format": "uri"}
_URI_REFERENCE = {"type": "string", "format": "uri-reference"}
_FROM_1 = {"type": "integer", "minimum": 1}
_INDEX = {"type": "integer", "minimum": -1}
_LEVEL = {"enum": ["none", "note", "warning", "error"]}
_TEXTS = {"type": "object", "additionalProperties": _TEXT}


def _ref(name: str) -> dict[str, str]:
    return {"$ref": f"#/definitions/{name}"}


def _list(name: str, *, unique: bool = False) -> dict[str, Any]:
    return {"type": "array", "items": _ref(name), "uniqueItems": unique}


def _object(*required: str, one_of: tuple[str, ...] = (), **members: Any) -> dict[str, Any]:
    made: dict[str, Any] = {
        "type": "object",
        "additionalProperties": False,
        "properties": {**members, "properties": _ref("propertyBag")},
    }
    if required:
        made["required"] = list(required)
    if one_of:
        made["anyOf"] = [{"required": [name]} for name in one_of]
    return made


_DEFINITIONS: dict[str, Any] = {
    "propertyBag": {
        "type": "object",
        "properties": {"tags": {"type": "array", "uniqueItems": True, "items": _TEXT}},
    },
    "message": _object(one_of=("text", "id"), text=_TEXT, markdown=_TEXT, id=_TEXT),
    "multiformatMessageString": _object("text", text=_TEXT, markdown=_TEXT),
    "run": _object(
        "tool",
        tool=_ref("tool"),
        invocations=_list("invocation"),
        columnKind={"enum": ["utf16CodeUnits", "unicodeCodePoints"]},
        results=_list("result"),
    ),
    "tool": _object("driver", driver=_ref("toolComponent")),
    "toolComponent": _object(
        "name",
        name=_TEXT,
        version=_TEXT,
        semanticVersion=_TEXT,
        informationUri=_URI,
        language={"type": "string", "pattern": "^[a-zA-Z]{2}(-[a-zA-Z]{2})?$"},
        rules=_list("reportingDescriptor", unique=True),
    ),
    "reportingDescriptor": _object(
        "id",
        id=_TEXT,
        name=_TEXT,
        shortDescription=_ref("multiformatMessageString"),
        fullDescription=_ref("multiformatMessageString"),
        help=_ref("multiformatMessageString"),
        helpUri=_URI,
        defaultConfiguration=_ref("reportingConfiguration"),
    ),
    "reportingConfiguration": _object(enabled={"type": "boolean"}, level=_LEVEL, rank={"type": "number"}),
    "invocation": _object(
        "executionSuccessful", executionSuccessful={"type": "boolean"}, exitCode={"type": "integer"}
    ),
    "result": _object(
        "message",
        ruleId=_TEXT,
        ruleIndex=_INDEX,
        kind={"enum": ["notApplicable", "pass", "fail", "review", "open", "informational"]},
        level=_LEVEL,
        message=_ref("message"),
        locations=_list("location"),
        relatedLocations=_list("location", unique=True),
        partialFingerprints=_TEXTS,
        suppressions=_list("suppression", unique=True),
    ),
    "suppression": _object(
        "kind",
        kind={"enum": ["inSource", "external"]},
        status={"enum": ["accepted", "underReview", "rejected"]},
        justification=_TEXT,
        location=_ref("location"),
    ),
    "location": _object(id=_INDEX, physicalLocation=_ref("physicalLocation"), message=_ref("message")),
    "physicalLocation": _object(
        one_of=("address", "artifactLocation"),
        artifactLocation=_ref("artifactLocation"),
        region=_ref("region"),
    ),
    "artifactLocation": _object(uri=_URI_REFERENCE, uriBaseId=_TEXT, index=_INDEX),
    "region": _object(
        one_of=("startLine", "charOffset", "byteOffset"),
        startLine=_FROM_1,
        startColumn=_FROM_1,
        endLine=_FROM_1,
        endColumn=_FROM_1,
    ),
}
SHAPE: dict[str, Any] = {
    "$schema": "http://json-schema.org/draft-04/schema#",
    "definitions": _DEFINITIONS,
    "type": "object",
    "additionalProperties": False,
    "required": ["version", "runs"],
    "properties": {"$schema": _URI, "version": {"enum": ["2.1.0"]}, "runs": _list("run")},
}
