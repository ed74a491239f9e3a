"""What can be wrong with a YAML text, in words: the fault and its cure."""

from typing import Final, NamedTuple

import yaml

from engine.errors import Problem


class Fault(NamedTuple):
    """A problem that does not know its place yet."""

    rule: str
    message: str
    cure: str

    def at(self, file: str, line: int, column: int) -> Problem:
        """The problem at its place."""
        return Problem(file, line, column, self.rule, self.message, self.cure)


EMPTY: Final = Fault(
    "empty-document", "The file holds no document.", "Begin it with its kind, such as `tree: my-tree`."
)
NOT_A_MAP: Final = Fault(
    "not-a-document",
    "A document is a list of `key: value` lines, and this is something else.",
    "Begin it with its kind, such as `tree: my-tree`.",
)
TWO_DOCUMENTS: Final = Fault(
    "two-documents",
    "A second document begins here.",
    "Put it into a file of its own and take out the `---` line.",
)
KEY_NOT_TEXT: Final = Fault(
    "key-not-text", "A key must be one word or text, not a list or a mapping.", "Write `key: value`."
)
KEY_EMPTY: Final = Fault("key-empty", "A value stands here without a key.", "Write a key before the colon.")
MERGE_KEY: Final = Fault(
    "merge-key",
    "`<<` has no meaning in YAML 1.2.",
    "Write the keys out, or put the shared part into a procedure.",
)


def too_large(size: int, most: int) -> Fault:
    """A file over the size limit, in bytes."""
    return Fault(
        "too-large",
        f"The file has {size:,} bytes; {most:,} are the most.",
        "Move shared parts into procedures of their own.",
    )


def too_deep(most: int) -> Fault:
    """Nesting over the limit."""
    return Fault(
        "too-deep",
        f"More than {most} levels stand inside each other here.",
        "A document needs fewer than ten.",
    )


def not_text(coding: str) -> Fault:
    """Bytes that are no text in the file's coding."""
    return Fault(
        "not-text",
        f"From here on the bytes are not {coding.upper()} text.",
        "Save the file as UTF-8 in your editor.",
    )


def control_character(character: str) -> Fault:
    """A character that YAML does not allow; empty where it could not be found again."""
    named = f"The character U+{ord(character):04X}" if character else "A control character"
    return Fault("control-character", f"{named} may not stand in a document.", "Delete it.")


def number_too_long(text: str) -> Fault:
    """A number that cannot be kept exactly."""
    shown = text if len(text) <= 24 else text[:24] + "…"
    return Fault(
        "number-too-long",
        f"`{shown}` is no number that a gauge can show.",
        "Give at most 15 digits, or put quotes round it if it is meant as text.",
    )


def duplicate_key(key: str, line: int) -> Fault:
    """A key that the same mapping already has."""
    return Fault(
        "duplicate-key",
        f"`{key}` stands here a second time; the first is in line {line}.",
        "Keep one of them.",
    )


def unknown_tag(tag: str) -> Fault:
    """A tag other than those of the core schema."""
    return Fault(
        "unknown-tag", f"The tag `{tag}` means nothing here.", "Take it out and write the plain value."
    )


def unknown_alias(name: str) -> Fault:
    """An alias without its anchor, or inside it."""
    return Fault(
        "unknown-alias",
        f"`*{name}` repeats something that is not finished or not there.",
        f"Define `&{name}` above it.",
    )


def explodes(name: str, most: int) -> Fault:
    """Aliases of aliases that unfold into more than anybody meant."""
    return Fault(
        "too-many-aliases",
        f"With `*{name}` more than {most:,} values are repeated.",
        "Write the repeated part once, as a procedure.",
    )


#: What the parser says -> what an author should hear. The first match counts.
_SLIPS: Final = (
    (
        "mapping values are not allowed",
        "A second colon in one line.",
        "Put quotes round a text that holds `: `.",
    ),
    ("found character '\\t'", "A tab stands where only spaces may indent.", "Replace the tab by spaces."),
    ("that cannot start any token", "A character that cannot begin a value.", "Put quotes round the text."),
    (
        "while scanning a quoted scalar",
        "A quotation mark is opened and never closed.",
        "Close it with the same mark.",
    ),
    (
        "could not find expected ':'",
        "A line without a colon where `key: value` must stand.",
        "Add the colon, or indent the line.",
    ),
    (
        "did not find expected ',' or ']'",
        "A list in square brackets is not closed.",
        "Close it with `]`, with commas between.",
    ),
    (
        "did not find expected ',' or '}'",
        "A mapping in braces is not closed.",
        "Close it with `}`, with commas between.",
    ),
    (
        "did not find expected key",
        "The indentation does not fit the lines above.",
        "Line it up with the keys above it.",
    ),
    (
        "did not find expected '-' indicator",
        "The indentation does not fit the list above.",
        "Line it up with its `-`.",
    ),
    ("found undefined tag handle", "A tag whose handle is not defined.", "Take the tag out."),
    (
        "found unknown escape character",
        "A backslash with a letter that has no meaning.",
        "Write `\\\\`, or use single quotes.",
    ),
    ("undefined alias", "An alias without its anchor.", "Define the `&name` above it."),
    ("found duplicate anchor", "An anchor with a name already used.", "Give it another name."),
)


def syntax(error: yaml.MarkedYAMLError, text: str) -> Fault:
    """The parser's complaint in an author's words."""
    said = f"{error.context or ''} {error.problem or ''}"
    mark = error.problem_mark
    lines = text.splitlines()
    if mark is not None and mark.line < len(lines) and "\t" in lines[mark.line][: mark.column + 1]:
        return Fault("syntax", *_SLIPS[1][1:])
    for words, message, cure in _SLIPS:
        if words in said:
            return Fault("syntax", message, cure)
    return Fault(
        "syntax",
        f"This is not YAML: {(error.problem or 'unreadable').strip()}.",
        "Compare with the lines above.",
    )
