"""The manual: a page for every slug that a finding may carry."""

import inspect
from collections.abc import Mapping
from typing import Final

from engine.lint import accepting
from engine.lint.registry import RULES


def _page(what: str, bad: str = "", good: str = "") -> str:
    examples = (("Bad", bad), ("Good", good))
    return "\n\n".join((what, *(f"{name}: {text}" for name, text in examples if text)))


#: What is found while a file is read, before any rule looks at what it means. Slug -> page.
READING: Final[Mapping[str, str]] = {
    "unreadable": _page(
        "The file cannot be opened.", bad="a link to a file that is gone, a file nobody may read.", good=""
    ),
    "syntax": _page("The text is not YAML.", bad="`say: Front: both`.", good='`say: "Front: both"`.'),
    "control-character": _page("A character that has no form, such as NUL or escape.", good="delete it."),
    "not-text": _page("The bytes are not UTF-8 (or UTF-16 with its mark).", good="save the file as UTF-8."),
    "too-large": _page("The file is larger than 2 MiB.", good="move shared parts into procedures."),
    "too-deep": _page(
        "More than 64 levels stand inside each other.", good="a document needs fewer than ten."
    ),
    "too-long-list": _page(
        "A list is longer than anybody could mean.", good="shorten it, or split the document."
    ),
    "too-many-aliases": _page(
        "Aliases repeat more than anybody could mean.",
        good="write the repeated part once, as a procedure.",
    ),
    "too-many-problems": _page(
        "The file has more problems than are worth telling at once.",
        good="mend the first ones and look again.",
    ),
    "empty-document": _page("The file holds nothing.", good="begin it with its kind, `tree: my-tree`."),
    "not-a-document": _page(
        "The file holds a list or one value.", good="begin it with its kind, `tree: my-tree`."
    ),
    "two-documents": _page("A `---` begins a second document.", good="one document a file."),
    "duplicate-key": _page(
        "A key stands twice in one mapping.", bad="two lines `minutes:` in one step.", good="keep one."
    ),
    "key-empty": _page("A value stands without a key.", bad="`: 3`.", good="`minutes: 3`."),
    "key-not-text": _page("A key is a list or a mapping.", bad="`? [a, b]`.", good="`key: value`."),
    "merge-key": _page("`<<` has no meaning in YAML 1.2.", good="write the keys out."),
    "number-too-long": _page(
        "A number that no gauge shows: infinite, or longer than 15 digits.",
        good="quotes round it if it is text.",
    ),
    "unknown-alias": _page("`*name` without its `&name` above.", good="define it first."),
    "unknown-tag": _page("A tag such as `!thing`.", good="write the plain value."),
    "unknown-kind": _page(
        "The first key names no kind of document.", bad="`tre: my-tree`.", good="`tree: my-tree`."
    ),
    "name-taken": _page("Two documents of one kind have one name.", good="names are unique in a library."),
    "missing-key": _page(
        "A key that must be there is not.",
        bad="an answer without `then`.",
        good="`{say: All four, then: brake}`.",
    ),
    "unknown-key": _page("A key that has no meaning here.", bad="`minuts: 3`.", good="`minutes: 3`."),
    "wrong-type": _page("A value of another type than the key needs.", bad="`say: 12`.", good='`say: "12"`.'),
    "wrong-form": _page(
        "A name or text of another form than is needed.", bad="`start: Warm Up`.", good="`start: warm-up`."
    ),
    "not-allowed": _page(
        "A word that is none of those allowed.", bad="`grade: repairs`.", good="`grade: repair`."
    ),
    "not-together": _page(
        "Two keys that exclude each other.", bad="`{upto: 6, below: 7, then: a}`.", good="one upper limit."
    ),
    "out-of-bounds": _page(
        "A number, text or list outside its bounds.", bad="`minutes: -3`.", good="`minutes: 3`."
    ),
}

#: What is found once every rule has spoken. Slug -> page.
WEIGHING: Final[Mapping[str, str]] = {accepting.SLUG: inspect.cleandoc(accepting.__doc__ or "")}


def page(slug: str) -> str | None:
    """The manual page of a slug, headed by the slug; None where there is no such slug."""
    rules = {rule.slug: rule.page for rule in RULES}
    text = rules.get(slug) or READING.get(slug) or WEIGHING.get(slug)
    return f"{slug}\n\n{text}" if text else None


def slugs() -> tuple[str, ...]:
    """Every slug that has a page, rules first."""
    return (*(rule.slug for rule in RULES), *WEIGHING, *READING)
