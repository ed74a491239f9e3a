"""The schema files as both validators read them, and every subschema with its place."""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, Final

import jsonschema_rs
from jsonschema import Draft202012Validator
from referencing import Registry
from referencing.jsonschema import DRAFT202012

HOME: Final = Path(__file__).parents[1]
FILES: Final[dict[str, Any]] = {
    path.name: json.loads(path.read_text("utf-8"))
    for path in sorted((HOME / "schemas").glob("*.schema.json"))
}
#: The kinds of document that people write; the other files are shared parts and records.
KINDS: Final = (
    "cautions", "facts", "gauges", "matrix", "procedure", "rehearsal", "states", "tree", "vehicle",
)  # fmt: skip
#: Keywords whose value is a schema, a mapping of schemas, a list of schemas.
_ONE: Final = ("if", "then", "else", "not", "items", "additionalProperties", "propertyNames")
_MAP: Final = ("properties", "$defs")
_LIST: Final = ("allOf", "anyOf")

Spot = tuple[str, ...]


def subschemas(node: Any, spot: Spot = ()) -> Iterator[tuple[Spot, dict[str, Any]]]:
    """Every schema inside a schema that is a mapping, itself first, with the keys that lead to it."""
    if not isinstance(node, dict):
        return
    yield spot, node
    for key in _ONE:
        yield from subschemas(node.get(key), (*spot, key))
    for key in _MAP:
        for name, inner in node.get(key, {}).items():
            yield from subschemas(inner, (*spot, key, name))
    for key in _LIST:
        for number, inner in enumerate(node.get(key, [])):
            yield from subschemas(inner, (*spot, key, str(number)))


def resolved(file: str, schema: dict[str, Any]) -> tuple[str, dict[str, Any]]:
    """The schema that a bare `$ref` stands for, with its file; any other schema is itself."""
    while set(schema) == {"$ref"}:
        name, _, pointer = schema["$ref"].partition("#")
        file = name or file
        schema = FILES[file]
        for key in pointer.strip("/").split("/") if pointer else ():
            schema = schema[key]
    return file, schema


def _whole(reference: str) -> dict[str, str]:
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "$ref": reference}


@cache
def explaining(reference: str) -> Any:
    """The validator that explains, for `tree.schema.json` or `step.schema.json#/$defs/band`."""
    pairs = [(name, DRAFT202012.create_resource(content)) for name, content in FILES.items()]
    registry: Any = Registry().with_resources(pairs)
    return Draft202012Validator(_whole(reference), registry=registry)


@cache
def deciding(reference: str) -> Any:
    """The validator that decides, for the same references."""
    registry = jsonschema_rs.Registry(list(FILES.items()))
    return jsonschema_rs.validator_for(_whole(reference), registry=registry)


def explained(reference: str, data: Any) -> set[str]:
    """The paths of everything that the explaining validator finds wrong, as `steps/lift/minutes`."""
    return {"/".join(map(str, error.absolute_path)) for error in explaining(reference).iter_errors(data)}


def decided(reference: str, data: Any) -> set[str]:
    """The same of the deciding validator.

    Of a key that is forbidden beside another one it names the key, the explaining one the mapping.
    """
    return {
        "/".join(map(str, error.instance_path[: -1 if _forbidden(error) else None]))
        for error in deciding(reference).iter_errors(data)
    }


def _forbidden(error: Any) -> bool:
    return type(error.kind).__name__ == "FalseSchema"
