"""What can be wrong with a YAML text, in words: the fault and its cure."""

from typing import Final, NamedTuple

from engine.errors import Problem

#: Characters that end a line in YAML 1.1 and stand inside it in YAML 1.2.
_BREAKS: Final = frozenset("\x85\u2028\u2029")


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
#: More problems than this nobody mends in one go, and telling them all would take a minute.
MOST_TOLD: Final = 100
TOO_MANY: Final = Fault(
    "too-many-problems",
    f"More than {MOST_TOLD} problems were found; the rest is not told.",
    "Mend these first.",
)
#: The document breaks its schema, and nobody can say where.
NO_WORDS: Final = Fault(
    "wrong-form",
    "The document is not what its schema asks for, and no words were found for why.",
    "Compare it with a sound document of its kind; report this as a fault of Witnessmark.",
)


def clip(text: str, most: int = 40) -> str:
    """The text, cut where it would fill the screen.

    >>> clip("a word"), clip("0123456789", 4)
    ('a word', '0123…')
    """
    return text if len(text) <= most else text[:most] + "…"


def too_large(size: int, most: int) -> Fault:
    """A file over the size limit, in bytes."""
    return Fault(
        "too-large",
        f"The file has {size:,} bytes; {most:,} are the most.",
        "Move shared parts into procedures of their own.",
    )


def too_long_list(most: int) -> Fault:
    """A list over the limit."""
    return Fault(
        "too-long-list",
        f"This list has more than {most:,} items.",
        "Split it; a walk has a few hundred answers at most.",
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
    """A character that may not stand in a text; empty where it could not be found again."""
    named = f"The character U+{ord(character):04X}" if character else "A control character"
    cure = "Put a plain line end or a space there." if character in _BREAKS else "Delete it."
    return Fault("control-character", f"{named} may not stand in a document.", cure)


def number_too_long(text: str) -> Fault:
    """A number that cannot be kept exactly."""
    return Fault(
        "number-too-long",
        f"`{clip(text, 24)}` is no number that a gauge can show.",
        "Give at most 15 digits, or put quotes round it if it is meant as text.",
    )


def duplicate_key(key: str, line: int) -> Fault:
    """A key that the same mapping already has."""
    return Fault(
        "duplicate-key",
        f"`{clip(key)}` stands here a second time; the first is in line {line}.",
        "Keep one of them.",
    )


def unknown_tag(tag: str) -> Fault:
    """A tag other than those of the core schema."""
    return Fault(
        "unknown-tag", f"The tag `{clip(tag)}` means nothing here.", "Take it out and write the plain value."
    )


def tag_misfit(name: str) -> Fault:
    """A tag of the core schema on a value that it cannot have."""
    return Fault("unknown-tag", f"The tag `!!{name}` does not fit this value.", "Take the tag out.")


def unknown_alias(name: str) -> Fault:
    """An alias without its anchor, or inside it."""
    return Fault(
        "unknown-alias",
        f"`*{clip(name)}` repeats something that is not finished or not there.",
        f"Define `&{clip(name)}` above it, or put quotes round it if it is meant as text.",
    )


def explodes(name: str, most: int) -> Fault:
    """Aliases of aliases that unfold into more than anybody meant."""
    return Fault(
        "too-many-aliases",
        f"With `*{clip(name)}` more than {most:,} characters are repeated.",
        "Write the repeated part once, as a procedure.",
    )
