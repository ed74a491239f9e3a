"""Data with places, built straight from the parser's events.

The parser's own loaders keep no places, let a second key silently win and read YAML 1.1. Building
from events does all three and is quicker than any of them, which is why it is worth owning.
"""

from dataclasses import dataclass, field
from typing import Any, Final

import yaml

from engine.errors import Problem
from engine.loading import faults
from engine.loading.data import Map, Mark, Seq
from engine.loading.scalar import HEADS, TooLong, meaning

# without libyaml the same events come from the Python parser, many times slower
_Parser: Final[Any] = yaml.cyaml.CParser if yaml.__with_libyaml__ else yaml.SafeLoader  # type: ignore[attr-defined]  # reason: the stubs hide it

DEEPEST: Final = 64
#: The longest list; comparing its items with each other must stay quick.
LONGEST: Final = 2_000
#: How many characters may come in through aliases; an author repeats a row, an attacker a million.
MOST_REPEATED: Final = 200_000
_CORE: Final = "tag:yaml.org,2002:"
#: The tags of the core schema, each with the types that its values can have here.
_TAGS: Final[dict[str, tuple[type, ...]]] = {
    _CORE + "str": (str,),
    _CORE + "int": (int,),
    _CORE + "float": (int, float),
    _CORE + "bool": (bool,),
    _CORE + "null": (type(None),),
    _CORE + "map": (Map,),
    _CORE + "seq": (Seq,),
}
_ODD_KEYS: Final = frozenset(("", "<<"))
# `Any`, lest the type checker take the parser's marks for missing
_SCALAR: Final[Any] = yaml.ScalarEvent
_MAP: Final[Any] = yaml.MappingStartEvent
_MAP_END: Final[Any] = yaml.MappingEndEvent
_DOCUMENT: Final[Any] = yaml.DocumentStartEvent
_END: Final[Any] = yaml.SequenceEndEvent


class Stop(Exception):  # noqa: N818  reason: it ends the reading of one file, its problem already written down
    """Nothing after this point of the file can be believed."""


@dataclass(slots=True)
class Builder:
    """Builds one file; `problems` fills up on the way."""

    file: str
    problems: list[Problem]
    get: Any = None
    depth: int = 0
    #: What each anchor stands for, and how many characters it unfolds to.
    anchors: dict[str, tuple[Any, int]] = field(default_factory=dict)
    #: Characters that came in through aliases so far.
    repeated: int = 0
    #: Where the last mapping or list that was left ends.
    end: Any = None

    def note(self, fault: faults.Fault, mark: Mark) -> None:
        """Write a problem down."""
        self.problems.append(fault.at(self.file, mark.line + 1, mark.column + 1))

    def wrong(self, mark: Mark, fault: faults.Fault) -> None:
        """Write a problem down and go on; raises Stop once there are too many."""
        self.note(fault, mark)
        if len(self.problems) >= faults.MOST_TOLD:
            self.note(faults.TOO_MANY, mark)
            raise Stop

    def build(self, text: str) -> Any:
        """The data of the one document in the text; raises Stop or the parser's own errors."""
        self.get = _Parser(text).get_event
        root: Any = None
        seen = False
        while type(event := self.get()) is not yaml.StreamEndEvent:
            if type(event) is _DOCUMENT:
                if seen:
                    self.wrong(event.start_mark, faults.TWO_DOCUMENTS)
                    raise Stop
                seen = True
                root = self._node(self.get())
        return root

    def _node(self, event: Any) -> Any:
        kind = type(event)
        if kind is _SCALAR:
            return self._scalar(event)
        if kind is yaml.AliasEvent:
            return self._alias(event)
        if event.tag is not None:
            self._check_tag(event, Map if kind is _MAP else Seq)
        self.depth += 1
        if self.depth > DEEPEST:
            self.wrong(event.start_mark, faults.too_deep(DEEPEST))
            raise Stop
        if event.anchor is not None:
            value = self._anchored(event)
        else:
            value = self._map(event) if kind is _MAP else self._seq(event)
        self.depth -= 1
        return value

    def _anchored(self, event: Any) -> Any:
        # an alias inside its own anchor must not find an older one of that name
        self.anchors.pop(event.anchor, None)
        before = self.repeated
        value = self._map(event) if type(event) is _MAP else self._seq(event)
        written = self.end.index - event.start_mark.index
        self.anchors[event.anchor] = (value, written + self.repeated - before)
        return value

    def _map(self, start: Any) -> Map:
        """One mapping. Plain scalars are settled here, not in a call: they are nine nodes of ten."""
        out = Map()
        out.mark = start.start_mark
        marks = out.marks = {}
        get = self.get
        while type(event := get()) is _SCALAR:
            key = event.value
            if event.anchor is not None or event.tag is not None or key in _ODD_KEYS:
                self._odd_key(event)
            after = get()
            if type(after) is _SCALAR and after.anchor is None and after.tag is None:
                value = after.value
                if after.implicit[0] and (not value or value[0] in HEADS):
                    try:
                        value = meaning(value)
                    except TooLong:
                        value = self._too_long(after)
            else:
                value = self._node(after)
            if key in out:
                self.wrong(event.start_mark, faults.duplicate_key(key, marks[key][0].line + 1))
            else:
                out[key] = value
                marks[key] = (event.start_mark, after.start_mark)
        if type(event) is not _MAP_END:
            self.wrong(event.start_mark, faults.KEY_NOT_TEXT)
            raise Stop
        self.end = event.end_mark
        return out

    def _seq(self, start: Any) -> Seq:
        out = Seq()
        out.mark = start.start_mark
        marks = out.marks = []
        while type(event := self.get()) is not _END:
            if len(out) == LONGEST:
                self.wrong(out.mark, faults.too_long_list(LONGEST))
                raise Stop
            out.append(self._node(event))
            marks.append(event.start_mark)
        self.end = event.end_mark
        return out

    def _odd_key(self, event: Any) -> None:
        self._scalar(event)
        if not event.value:
            self.wrong(event.start_mark, faults.KEY_EMPTY)
        elif event.value == "<<" and event.implicit[0]:
            self.wrong(event.start_mark, faults.MERGE_KEY)

    def _plain(self, event: Any) -> Any:
        try:
            return meaning(event.value)
        except TooLong:
            return self._too_long(event)

    def _too_long(self, event: Any) -> int:
        self.wrong(event.start_mark, faults.number_too_long(event.value))
        return 1  # allowed nearly everywhere, so that one slip is told and not two

    def _scalar(self, event: Any) -> Any:
        tag = event.tag
        plain = event.implicit[0] if tag is None else tag not in ("!", _CORE + "str")
        value = self._plain(event) if plain else event.value
        self._check_tag(event, type(value))
        if event.anchor is not None:
            self.anchors[event.anchor] = (value, len(event.value) + 1)
        return value

    def _check_tag(self, event: Any, kind: type) -> None:
        if event.tag is None or event.tag == "!":
            return
        if event.tag not in _TAGS:
            self.wrong(event.start_mark, faults.unknown_tag(event.tag))
        elif kind not in _TAGS[event.tag]:
            self.wrong(event.start_mark, faults.tag_misfit(event.tag.removeprefix(_CORE)))

    def _alias(self, event: Any) -> Any:
        value, size = self.anchors.get(event.anchor, (None, 0))
        if size == 0:
            self.wrong(event.start_mark, faults.unknown_alias(event.anchor))
        self.repeated += size
        if self.repeated > MOST_REPEATED:
            self.wrong(event.start_mark, faults.explodes(event.anchor, MOST_REPEATED))
            raise Stop
        return value
