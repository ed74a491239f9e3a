"""One thing that another version says otherwise."""

from typing import NamedTuple

from engine.model.place import Place


class Change(NamedTuple):
    """What changed, in words for a person, with its place in each version (None: not there)."""

    #: Put first where it may hurt or convict somebody else: a caution dropped, a verdict changed.
    serious: bool
    #: A word for machines: `caution-dropped`, `limit`, `renamed`.
    kind: str
    #: The document and, where there is one, the step.
    document: str
    step: str
    message: str
    old: Place | None
    new: Place | None
