"""A schema's complaint in the words of somebody who writes documents."""

from collections.abc import Callable, Iterator, Mapping
from difflib import get_close_matches
from itertools import islice
from typing import Any, Final

from engine.loading.faults import Fault, clip
from engine.nearest import meant

Path = tuple[str | int, ...]
#: A fault, the path it belongs to, and whether the key (not the value) is meant.
Worded = tuple[Fault, Path, bool]

_TYPES: Final = {
    "object": "a mapping of `key: value` lines",
    "array": "a list",
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
    "null": "nothing",
}


def words(error: Any) -> Iterator[Worded]:
    """One validation error of the schema library as faults with their paths."""
    yield from _TELL.get(error.validator, _other)(error, tuple(error.absolute_path))


def _name(path: Path) -> str:
    """What a value is called: its key, or `item 2 of answers`."""
    if not path:
        return "the document"
    last = path[-1]
    if isinstance(last, int):
        return f"item {last + 1} of {_name(path[:-1])}"
    return f"`{clip(last)}`"


def _plain(value: Any) -> str:
    """A value as an author would write it."""
    return "nothing" if value is None else str(value).lower() if isinstance(value, bool) else str(value)


def _shown(value: Any) -> str:
    return f"`{clip(_plain(value))}`"


def _kind(value: Any) -> str:
    for kind, word in ((bool, "boolean"), (dict, "object"), (list, "array"), (str, "string")):
        if isinstance(value, kind):
            return _TYPES[word]
    return _TYPES["null" if value is None else "number"]


def _required(error: Any, path: Path) -> Iterator[Worded]:
    for key in error.validator_value:
        if key not in error.instance and error.message.startswith(repr(key)):
            about = error.schema.get("properties", {}).get(key, {})
            yield Fault("missing-key", f"{_cap(_name(path))} lacks `{key}`.", _add(key, about)), path, True


def _add(key: str, about: Mapping[str, Any]) -> str:
    examples = about.get("examples")
    if examples and not isinstance(examples[0], dict | list):
        return f"Add it, such as `{key}: {examples[0]}`."
    return f"Add `{key}:`."


def _cap(text: str) -> str:
    return text[0].upper() + text[1:]


def _unknown(error: Any, path: Path) -> Iterator[Worded]:
    known = error.schema.get("properties", {})
    for key in error.instance:
        if key not in known:
            yield (
                Fault("unknown-key", f"No key `{clip(key)}` in {_name(path)}.", meant(clip(key), known)),
                (*path, key),
                True,
            )


def _type(error: Any, path: Path) -> Iterator[Worded]:
    wanted = error.validator_value
    names = [wanted] if isinstance(wanted, str) else wanted
    needed = " or ".join(_TYPES[name] for name in names)
    cure = f"Write {needed}."
    if "string" in names and isinstance(error.instance, int | float):
        cure = f'Put quotes round it: "{_shown(error.instance).strip("`")}".'
    elif error.instance is None:
        cure = f"Write {needed} after the colon."
    yield (
        Fault("wrong-type", f"{_cap(_name(path))} must be {needed}, not {_kind(error.instance)}.", cure),
        path,
        False,
    )


def _enum(error: Any, path: Path) -> Iterator[Worded]:
    allowed = error.validator_value if error.validator == "enum" else [error.validator_value]
    cure = meant(clip(_plain(error.instance)), [_plain(value) for value in allowed])
    yield Fault("not-allowed", f"{_cap(_name(path))} cannot be {_shown(error.instance)}.", cure), path, False


def _pattern(error: Any, path: Path) -> Iterator[Worded]:
    if not error.instance:
        return  # that it is empty has been said already
    cure = _about(error)
    # the path ends at the mapping where it is the name of a key that has the wrong form
    keyed = "propertyNames" in error.absolute_schema_path
    where = (*path, error.instance) if keyed else path
    yield Fault("wrong-form", f"{_shown(error.instance)} has not the right form.", cure), where, keyed


def _forbidden(_error: Any, path: Path) -> Iterator[Worded]:
    """A key that the schema allows elsewhere but not beside another one of the same mapping."""
    message = f"{_name(path)} may not stand here beside the other keys of {_name(path[:-1])}."
    yield Fault("not-together", message, "Keep one of the two."), path, True


def _bound(sentence: str, cure: str) -> Callable[[Any, Path], Iterator[Worded]]:
    def tell(error: Any, path: Path) -> Iterator[Worded]:
        facts = {"name": _cap(_name(path)), "bound": error.validator_value, "is": _shown(error.instance)}
        facts["size"] = len(error.instance) if isinstance(error.instance, str | list | dict) else ""
        yield Fault("out-of-bounds", sentence.format(**facts), cure.format(**facts)), path, False

    return tell


def _any_of(error: Any, path: Path) -> Iterator[Worded]:
    choices = [choice["required"][0] for choice in error.validator_value if choice.get("required")]
    if not choices or not isinstance(error.instance, dict):
        yield from _other(error, path)
        return
    listed = ", ".join(f"`{c}`" for c in choices[:-1]) + f" or `{choices[-1]}`"
    keys = (clip(key) for key in islice(error.instance, 20))
    close = [m for key in keys for m in get_close_matches(key, choices, n=1, cutoff=0.6)]
    cure = f"Did you mean `{close[0]}`?" if close else f"Add {listed}."
    yield Fault("missing-key", f"{_cap(_name(path))} needs one of {listed}.", cure), path, True


def _not(error: Any, path: Path) -> Iterator[Worded]:
    both = error.validator_value.get("required", ())
    pair = " and ".join(f"`{key}`" for key in both) or "these"
    yield (
        Fault("not-together", f"{_cap(_name(path))} cannot have both {pair}.", "Keep one of them."),
        path,
        False,
    )


def _other(error: Any, path: Path) -> Iterator[Worded]:
    message = f"{_cap(_name(path))} is not what is expected here: {_shown(error.instance)}."
    yield Fault("wrong-form", message, _about(error)), path, False


def _about(error: Any) -> str:
    """What the schema says of the value; shared forms say it as a comment, so that editors pass over it."""
    about = error.schema if isinstance(error.schema, dict) else {}
    told = about.get("description") or about.get("$comment")
    return str(told or "See the schema of this kind of document.")


_TELL: Final[Mapping[str, Callable[[Any, Path], Iterator[Worded]]]] = {
    "required": _required,
    "additionalProperties": _unknown,
    "properties": _forbidden,
    "type": _type,
    "enum": _enum,
    "const": _enum,
    "pattern": _pattern,
    "anyOf": _any_of,
    "not": _not,
    "minimum": _bound("{name} is {is}; the least is {bound}.", "Give at least {bound}."),
    "exclusiveMinimum": _bound("{name} is {is}; it must be more than {bound}.", "Give more than {bound}."),
    "maximum": _bound("{name} is {is}; the most is {bound}.", "Give at most {bound}."),
    "exclusiveMaximum": _bound("{name} is {is}; it must be less than {bound}.", "Give less than {bound}."),
    "minLength": _bound("{name} is empty.", "Write at least {bound} character."),
    "maxLength": _bound(
        "{name} has {size} characters; {bound} are the most.", "Shorten it, or split the step in two."
    ),
    "minItems": _bound("{name} has too few items ({size}); {bound} are the fewest.", "Add what is missing."),
    "maxItems": _bound("{name} has too many items ({size}); {bound} are the most.", "Take some out."),
    "minProperties": _bound(
        "{name} has too few entries ({size}); {bound} are the fewest.", "Add what is missing."
    ),
    "maxProperties": _bound("{name} has too many entries ({size}); {bound} are the most.", "Take some out."),
    "uniqueItems": _bound("{name} holds the same item twice.", "Keep one of them."),
}
