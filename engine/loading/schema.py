"""Documents held against their JSON Schemas: every problem, each at its own place.

A compiled validator decides; only for a document that fails does the slower, more talkative one
say why. Both read the same files, so nothing of a schema is written twice.
"""

import json
from functools import cache
from typing import Any

from engine import resources
from engine.errors import Problem
from engine.loading.data import Map, locate

_DRAFT = "https://json-schema.org/draft/2020-12/schema"


@cache
def _schemas() -> dict[str, Any]:
    return {name: json.loads(content) for name, content in resources.schemas()}


@cache
def _decider(kind: str) -> Any:
    import jsonschema_rs

    registry = jsonschema_rs.Registry(list(_schemas().items()))
    return jsonschema_rs.validator_for({"$schema": _DRAFT, "$ref": f"{kind}.schema.json"}, registry=registry)


@cache
def _explainer(kind: str) -> Any:
    from jsonschema import Draft202012Validator
    from referencing import Registry
    from referencing.jsonschema import DRAFT202012

    resources_ = [(name, DRAFT202012.create_resource(s)) for name, s in _schemas().items()]
    registry: Any = Registry().with_resources(resources_)
    return Draft202012Validator({"$schema": _DRAFT, "$ref": f"{kind}.schema.json"}, registry=registry)


def sound(kind: str, data: Any) -> bool:
    """Whether data of this kind of document (`tree`, `vehicle` ...) keeps its schema."""
    return bool(_decider(kind).is_valid(data))


def check(kind: str, file: str, data: Map) -> tuple[Problem, ...]:
    """Every way in which a document breaks its schema; empty where it is sound."""
    if sound(kind, data):
        return ()
    # a sound document, which is nearly every one, never needs the words
    from engine.loading.wording import words

    found = set()
    for error in _explainer(kind).iter_errors(data):
        for fault, path, key in words(error, data):
            place = locate(file, data, path, key=key)
            found.add(fault.at(file, place.line, place.column))
    return tuple(sorted(found))
