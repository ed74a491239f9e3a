"""Slips planted into the released library, one file of `planted/` a rule.

A row of `defects` is something a rule must catch, a row of `near-misses` something right that is as close
to it as may be. `old` stands once in its file (with `in`, once in that step or other entry); several lines
may stand deeper in the file than in the row. `file` is the first file edited, further edits stand under
`also`: `copy-of` begins a new file, `gone` takes one away. `at` is how the line at fault begins (with
`at-in`, in that entry), by file where it is not `file`; `through` is a step of the walk that shows it.
"""

import re
import textwrap
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

import yaml

from engine.lint import accepting
from engine.lint.finding import Found
from engine.lint.registry import RULES
from engine.lint.rule import Scope
from engine.lint.runner import run
from engine.loading import folders
from engine.loading.leaf import File, Leaf, leaf
from engine.loading.library import Library, gather
from engine.model.place import Place
from engine.model.tree import Document, Run, Verdict

HOME: Final = Path(__file__).parent / "planted"
TREE: Final = "complaints/no-rear-drive.yaml"


def _accepting(scope: Scope) -> Iterator[Found]:
    """What is told of acceptances, once every rule has spoken."""
    told = (found for found in run(scope.library) if found.rule == accepting.SLUG)
    return (Found(Place(*found[:3]), found.message, found.cure) for found in told)


#: Every slug that is not told by the loader, in the order of the manual, and what tells it.
CHECKS: Final = {**{rule.slug: rule.check for rule in RULES}, accepting.SLUG: _accepting}
#: The files of a library, by their paths inside it.
Files = Mapping[str, File]


class Row(NamedTuple):
    """One slip, or one thing that only looks like it."""

    slug: str
    name: str
    data: Mapping[str, Any]

    def __str__(self) -> str:
        return f"{self.slug}/{self.name}"

    @property
    def edits(self) -> Iterator[Mapping[str, Any]]:
        """What is changed, one edit after the other, each with its file."""
        own = {key: self.data[key] for key in ("in", "old", "new", "copy-of", "gone") if key in self.data}
        for edit in ([own] if own else []) + self.data.get("also", []):
            yield {"file": self.data.get("file", TREE), **edit}

    @property
    def expected(self) -> Mapping[str, Sequence[str]]:
        """How each line at fault begins, by its file."""
        at = self.data["at"]
        by_file = at if isinstance(at, dict) else {self.data.get("file", TREE): at}
        return {file: [lines] if isinstance(lines, str) else lines for file, lines in by_file.items()}


class Seen(NamedTuple):
    """What came of a planting: the lines at fault, those expected, and all that was found."""

    found: frozenset[tuple[str, int]]
    expected: frozenset[tuple[str, int]]
    findings: tuple[Found, ...]
    library: Library


@cache
def rows(kind: str) -> tuple[Row, ...]:
    """All rows of a kind, `defects` or `near-misses`, in the order of their files."""
    return tuple(
        Row(path.stem, name, data)
        for path in sorted(HOME.glob("*.yaml"))
        for name, data in (yaml.safe_load(path.read_text("utf-8"))[kind] or {}).items()
    )


@cache
def released() -> Files:
    """Of the released library one complaint with all that it needs, so that others may come and go."""
    library = gather(folders.shipped())
    used = _used(library, library.trees[Path(TREE).stem])
    gone = {
        each.place.file
        for name, each in (*library.trees.items(), *library.procedures.items())
        if name not in used
    } | {each.place.file for each in library.rehearsals.values() if each.tree not in used}
    return {file.path: file for file in folders.shipped() if file.shown not in gone}


def _used(library: Library, document: Document) -> set[str]:
    """The names of a tree or procedure, of what it runs, and of what its verdicts are followed by."""
    names = {document.name}
    for step in document.steps.values():
        inner = [step.procedure] if isinstance(step, Run) else []
        for name in step.follow if isinstance(step, Verdict) else inner:
            names |= _used(library, library.procedures[name])
    return names


@cache
def _leaf(file: File) -> Leaf:
    return leaf(file)


def _reading(_: Callable[[File], Leaf], files: Iterable[File]) -> Iterator[Leaf]:
    return map(_leaf, files)


@cache
def seen(slug: str, name: str, kind: str) -> Seen:
    """What the rule of a row finds in the whole library with the slip in it."""
    row = next(row for row in rows(kind) if (row.slug, row.name) == (slug, name))
    files = dict(released())
    for edit in row.edits:
        _edit(files, edit)
    library = gather(files.values(), _reading)
    findings = tuple(CHECKS[slug](Scope(library)))
    lines = {
        (files[path].shown, _line(files[path], begins, row.data.get("at-in", "")))
        for path, all_begin in (row.expected.items() if kind == "defects" else ())
        for begins in all_begin
    }
    found = frozenset((finding.place.file, finding.place.line) for finding in findings)
    return Seen(found, frozenset(lines), findings, library)


def _edit(files: dict[str, File], edit: Mapping[str, Any]) -> None:
    path = edit["file"]
    if edit.get("gone"):
        del files[path]
        return
    if "copy-of" in edit:
        shown = released()["shop/states.yaml"].shown.replace("shop/states.yaml", path)
        files[path] = files[edit["copy-of"]]._replace(shown=shown, path=path)
    if "old" in edit:
        text = files[path].content.decode()
        changed = edited(text, edit["old"], edit["new"], edit.get("in", ""))
        assert changed != text
        files[path] = files[path]._replace(content=changed.encode())


def edited(text: str, old: str, new: str, within: str = "") -> str:
    r"""The text with `old`, which must stand once in it (or in the entry `within`), become `new`.

    >>> edited("a:\n  - x: 1\nb:\n  - x: 1\n", "x: 1", "x: 2", "b")
    'a:\n  - x: 1\nb:\n  - x: 2\n'
    >>> edited("a:\n    b: 1\n    c: 2\n", "b: 1\nc: 2\n", "d: 3\n")
    'a:\n    d: 3\n'
    """
    start, end = _entry(text, within) if within else (0, len(text))
    part = text[start:end]
    depths = [""]
    if "\n" in old:
        depths = [
            depth
            for depth in (" " * n for n in range(13))
            if f"\n{textwrap.indent(old, depth)}" in f"\n{part}"
        ]
    assert len(depths) == 1, f"stands at {len(depths)} depths: {old}"
    written = textwrap.indent(old, depths[0])
    assert part.count(written) == 1, f"stands {part.count(written)} times: {old}"
    return text[:start] + part.replace(written, textwrap.indent(new, depths[0])) + text[end:]


def _entry(text: str, name: str) -> tuple[int, int]:
    """Where the one entry of this name begins and ends, with all that stands deeper."""
    found = list(re.finditer(rf"^( *){re.escape(name)}:.*\n(?:\1 .*\n|\n)*", text, re.MULTILINE))
    assert len(found) == 1, f"{len(found)} entries are named {name}"
    return found[0].span()


def _line(file: File, begins: str, within: str) -> int:
    text = file.content.decode()
    start, end = _entry(text, within) if within else (0, len(text))
    first = text.count("\n", 0, start) + 1
    lines = text[start:end].splitlines()
    found = [number for number, line in enumerate(lines, first) if line.lstrip().startswith(begins)]
    assert len(found) == 1, f"{len(found)} lines of {file.path} begin with {begins}"
    return found[0]
