"""What the YAML parser complains of, in an author's words and at the place an author must mend."""

from typing import Any, Final, NamedTuple

import yaml

from engine.loading.breaks import lines, within
from engine.loading.data import Mark, Spot
from engine.loading.faults import Fault

_TAB: Final = Fault("syntax", "A tab stands where only spaces may indent.", "Replace the tab by spaces.")
_BEHIND: Final = Fault(
    "syntax", "Something stands behind a value that has already ended.", "Put quotes round the whole text."
)


class _Slip(NamedTuple):
    words: str
    message: str
    cure: str
    #: Whether the place to mend is where the thing was opened, once that is in another line.
    opened: bool = False
    rule: str = "syntax"


#: What the parser says -> what an author should hear. The first match counts.
_SLIPS: Final = (
    _Slip(
        "mapping values are not allowed",
        "A second colon in one line.",
        "Put quotes round a text that holds `: `.",
    ),
    _Slip(
        "that cannot start any token", "A character that cannot begin a value.", "Put quotes round the text."
    ),
    _Slip(
        "while scanning a quoted scalar",
        "A quotation mark is opened and never closed.",
        "Close it with the same mark.",
        opened=True,
    ),
    _Slip(
        "could not find expected ':'",
        "A line without a colon where `key: value` must stand.",
        "Add the colon, or the blank behind it, or indent the line.",
        opened=True,
    ),
    _Slip(
        "did not find expected ',' or ']'",
        "A list in square brackets is not closed.",
        "Close it with `]`, with commas between.",
        opened=True,
    ),
    _Slip(
        "did not find expected ',' or '}'",
        "A mapping in braces is not closed.",
        "Close it with `}`, with commas between.",
        opened=True,
    ),
    _Slip(
        "did not find expected key",
        "The indentation does not fit the lines above.",
        "Line it up with the keys above it.",
    ),
    _Slip(
        "did not find expected '-' indicator",
        "The indentation does not fit the list above.",
        "Line it up with its `-`.",
    ),
    _Slip("found undefined tag handle", "A tag whose handle is not defined.", "Take the tag out."),
    _Slip(
        "found unknown escape character",
        "A backslash with a letter that has no meaning.",
        "Write `\\\\`, or use single quotes.",
    ),
    _Slip(
        "found invalid Unicode character escape code",
        "A backslash with a code that is no character.",
        "Write the character itself.",
    ),
    _Slip(
        "did not find expected alphabetic or numeric character",
        "A text cannot begin with `*` or `&`.",
        "Put quotes round the text.",
    ),
    _Slip(
        "did not find expected node content",
        "A value is missing here.",
        "Write it, or take out what waits for it.",
    ),
    _Slip(
        "did not find expected <document start>",
        "Something stands behind the end of the document.",
        "Take it out, or take out the line or bracket that ends the document.",
    ),
    _Slip(
        "found incompatible YAML document", "A `%YAML` line asks for another version.", "Take the line out."
    ),
    _Slip(
        "exceeded maximum nesting depth",
        "Far too many brackets are opened here and not closed.",
        "Close each of them.",
        rule="too-deep",
    ),
)


def slip(error: yaml.MarkedYAMLError, text: str) -> tuple[Fault, Mark]:
    """The fault behind the parser's complaint, and where it is to be mended."""
    where: Any = error.problem_mark or error.context_mark or Spot(0, 0)
    found = _slip(f"{error.context or ''} {error.problem or ''}")
    upto = (lines(text)[where.line : where.line + 1] or [""])[0][: where.column + 1]
    if "\t" in upto[: len(upto) - len(upto.lstrip())]:
        return _TAB, where
    if found is None:
        said = (error.problem or "unreadable").strip()
        return Fault("syntax", f"This is not YAML: {said}.", "Compare with the lines above."), within(
            text, where
        )
    if "indentation" in found.message and upto[:-1].strip(" -"):
        return _BEHIND, where
    opening: Any = error.context_mark
    if found.opened and opening is not None and opening.line != where.line:
        where = opening
    return Fault(found.rule, found.message, found.cure), within(text, where)


def _slip(said: str) -> _Slip | None:
    return next((slip for slip in _SLIPS if slip.words in said), None)
