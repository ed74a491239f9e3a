"""Documents held against their JSON Schemas: every problem, each at its own place.

A compiled validator decides; only for a document that fails does a slower, more talkative one say
why. Both read the same files, so nothing of a schema is written twice.
"""

import json
from collections.abc import Iterator
from functools import cache
from typing import Any, Final

from engine import resources
from engine.errors import Problem
from engine.loading import faults
from engine.loading.data import Map, locate

_DRAFT: Final = "https://json-schema.org/draft/2020-12/schema"


@cache
def schemas() -> dict[str, Any]:
    """Every schema by the name of its file."""
    return {name: json.loads(content) for name, content in resources.schemas()}


@cache
def _decider(reference: str) -> Any:
    import jsonschema_rs

    registry = jsonschema_rs.Registry(list(schemas().items()))
    return jsonschema_rs.validator_for({"$schema": _DRAFT, "$ref": reference}, registry=registry)


def sound(reference: str, data: Any) -> bool:
    """Whether data keeps the schema that a reference names, such as `tree.schema.json`."""
    return bool(_decider(reference).is_valid(data))


def check(kind: str, file: str, data: Map) -> tuple[Problem, ...]:
    """Every way in which a document breaks its schema, up to a hundred; empty where it is sound."""
    if sound(f"{kind}.schema.json", data):
        return ()
    found: set[Problem] = set()
    for problem in _problems(kind, file, data):
        if len(found) == faults.MOST_TOLD:
            last = max(found)
            found.add(faults.TOO_MANY.at(file, last.line, last.column))
            break
        found.add(problem)
    # should the two ever disagree, a document that was refused must not pass for lack of words
    return tuple(sorted(found)) or (faults.NO_WORDS.at(file, 1, 1),)


def _problems(kind: str, file: str, data: Map) -> Iterator[Problem]:
    # a sound document, which is nearly every one, never needs the words
    from engine.loading.explain import errors
    from engine.loading.wording import words

    for error in errors(kind, data):
        for fault, path, key in words(error):
            place = locate(file, data, path, key=key)
            yield fault.at(file, place.line, place.column)
