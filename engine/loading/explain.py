"""Why a document breaks its schema: the slower, more talkative of the two validators at work."""

from collections.abc import Iterator, Mapping
from functools import cache
from itertools import islice
from typing import Any, Final

from jsonschema import Draft202012Validator, ValidationError
from jsonschema.validators import extend
from referencing import Registry
from referencing.jsonschema import DRAFT202012

from engine.loading.data import Map
from engine.loading.faults import MOST_TOLD
from engine.loading.schema import schemas, sound


def errors(kind: str, data: Map) -> Iterator[ValidationError]:
    """What the schema library says, one error at a time."""
    yield from _explainer(kind).iter_errors(_suspicious(kind, data))
    yield from _counter(kind).iter_errors(data)


def _suspicious(kind: str, data: Map) -> Mapping[str, Any]:
    known = schemas()[f"{kind}.schema.json"]["properties"]
    return {
        key: _cut(f"{kind}.schema.json#/properties/{key}", held) if key in known else held
        for key, held in data.items()
    }


def _cut(reference: str, held: Any) -> Any:
    """The entries of a mapping that are wrong by themselves; one of them where all are right.

    To go through those that are right takes a hundred times as long, and finds nothing.
    """
    if not isinstance(held, Map):
        return held
    wrong = ((name, value) for name, value in held.items() if not sound(reference, {name: value}))
    return dict(islice(wrong, MOST_TOLD)) or dict(islice(held.items(), 1))


@cache
def _counter(kind: str) -> Any:
    """Looks at nothing but how many entries each mapping has, of which the explainer sees a few."""
    known = schemas()[f"{kind}.schema.json"]["properties"].items()
    counts = {key: {name: about[name] for name in _NUMBERS & {*about}} for key, about in known if about}
    return _NAMING({"properties": counts})


@cache
def _explainer(kind: str) -> Any:
    # a schema that names its draft would be handed to the library's own validator of that draft
    plain = {name: {k: v for k, v in held.items() if k != "$schema"} for name, held in schemas().items()}
    found = [(name, DRAFT202012.create_resource(schema)) for name, schema in plain.items()]
    registry: Any = Registry().with_resources(found)
    return _NAMING({"$ref": f"{kind}.schema.json"}, registry=registry)


def _properties(validator: Any, properties: Any, instance: Any, schema: Any) -> Iterator[ValidationError]:
    """The keyword of that name; but of a forbidden key the library tells the value only, this the key."""
    allowed = {key: inner for key, inner in properties.items() if inner is not False}
    for key in properties.keys() - allowed.keys() if isinstance(instance, dict) else ():
        if key in instance:
            yield ValidationError(f"{key} is forbidden", path=(key,), schema_path=(key,))
    yield from _PROPERTIES(validator, allowed, instance, schema)


#: What a schema says of the number of entries.
_NUMBERS: Final = frozenset(("minProperties", "maxProperties"))
_PROPERTIES: Final[Any] = Draft202012Validator.VALIDATORS["properties"]
_NAMING: Final[Any] = extend(Draft202012Validator, {"properties": _properties})  # type: ignore[no-untyped-call]  # reason: the stubs leave it bare
