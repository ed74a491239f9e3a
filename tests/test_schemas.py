"""The schema files: sound in themselves, explained for people, strict, and readable by older editors."""

from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.schema_files import FILES, KINDS, Spot, decided, explained, resolved, subschemas

#: What draft-07 knows as well, and `$defs`, which an older editor needs only as a place to point to.
KNOWN = frozenset(("$schema", "$comment", "$ref", "$defs", "title", "description", "examples"))
KNOWN |= {"type", "enum", "const", "properties", "required", "propertyNames", "additionalProperties"}
KNOWN |= {"minProperties", "maxProperties"}
KNOWN |= {"items", "minItems", "maxItems", "uniqueItems", "minLength", "maxLength", "pattern"}
KNOWN |= {"minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum"}
KNOWN |= {"allOf", "anyOf", "not", "if", "then", "else"}
#: A schema under one of these narrows a mapping that is closed where it is described.
BRANCHES = frozenset(("if", "then", "else", "anyOf", "allOf"))


def every(files: Any = FILES) -> list[tuple[str, Spot, dict[str, Any]]]:
    """Every subschema of every file."""
    return [(file, spot, schema) for file in files for spot, schema in subschemas(FILES[file])]


def told(spot: Spot) -> bool:
    """Whether somebody can meet the value of this subschema under a key of a document."""
    if len(spot) < 2 or "if" in spot:
        return False
    named = spot[-2] in ("properties", "$defs")
    return (named and not spot[-1].endswith("-form")) or spot[-1] in ("additionalProperties", "items")


def spelt(file: str, spot: Spot) -> str:
    """The subschema's place, as a test's name."""
    return f"{file.removesuffix('.schema.json')}:{'/'.join(spot)}"


MET = [(file, spot, schema) for file, spot, schema in every() if told(spot)]
EXAMPLED = [(file, spot, schema) for file, spot, schema in every() if "examples" in schema]


@pytest.mark.parametrize("file", FILES)
def test_a_file_is_a_sound_schema(file: str) -> None:
    """The meta-schema of 2020-12 has nothing against the file."""
    Draft202012Validator.check_schema(FILES[file])

    assert FILES[file]["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_every_kind_of_document_has_its_file() -> None:
    """Each kind is found under its own name, which is also the key that tells the kind."""
    missing = [kind for kind in KINDS if kind not in FILES.get(f"{kind}.schema.json", {})["properties"]]

    assert missing == []


@pytest.mark.parametrize("file", FILES)
def test_older_editors_know_every_keyword(file: str) -> None:
    """No keyword stands in a file that a draft-07 editor would pass over in silence."""
    used = {key for _, schema in subschemas(FILES[file]) for key in schema}

    assert used <= KNOWN


@pytest.mark.parametrize("file", FILES)
def test_nothing_stands_beside_a_reference(file: str) -> None:
    """Draft-07 ignores what stands beside `$ref`, so nothing but the dialect does."""
    beside = [
        "/".join(spot) for spot, schema in subschemas(FILES[file]) if "$ref" in schema and len(schema) > 1
    ]

    assert beside == []


@pytest.mark.parametrize(("file", "spot", "schema"), MET, ids=[spelt(f, s) for f, s, _ in MET])
def test_what_can_be_met_is_explained(file: str, spot: Spot, schema: dict[str, Any]) -> None:
    """Every key, entry and item shows a title, a sentence and an example while it is written."""
    about = resolved(file, schema)[1]

    assert {"title", "description", "examples"} <= about.keys(), spot
    assert about["examples"]


@pytest.mark.parametrize(("file", "spot", "schema"), EXAMPLED, ids=[spelt(f, s) for f, s, _ in EXAMPLED])
def test_an_example_is_itself_right(file: str, spot: Spot, schema: dict[str, Any]) -> None:
    """What an editor offers would be accepted, by both validators."""
    reference = f"{file}#" + "".join(f"/{key}" for key in spot)
    wrong = [e for e in schema["examples"] if explained(reference, e) or decided(reference, e)]

    assert wrong == []


def test_shared_forms_are_silent() -> None:
    """An editor shows the first title that it meets on the way in; a form's would hide the field's own."""
    forms = [schema for _, spot, schema in every() if spot[-1:] and spot[-1].endswith("-form")]
    loud = [form for form in forms if form.keys() & {"title", "description", "examples"}]

    assert forms
    assert loud == []


@pytest.mark.parametrize("kind", KINDS)
def test_no_unknown_key_is_let_through(kind: str) -> None:
    """A mapping with keys of its own refuses every other key."""
    files = (f"{kind}.schema.json", "step.schema.json", "common.schema.json")
    open_ = [
        spelt(file, spot)
        for file, spot, schema in every(files)
        if "properties" in schema and BRANCHES.isdisjoint(spot[-2:])
        if schema.get("additionalProperties") is not False
    ]

    assert open_ == []


@pytest.mark.parametrize("file", FILES)
def test_a_reference_leads_somewhere(file: str) -> None:
    """Every `$ref` names a file beside this one, or a part of this one, that is there."""
    references = [schema for _, schema in subschemas(FILES[file]) if set(schema) == {"$ref"}]
    lost = [schema["$ref"] for schema in references if not resolved(file, schema)[1]]

    assert lost == []
