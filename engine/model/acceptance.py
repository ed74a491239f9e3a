"""A finding of lint that the author of a document has weighed and lets stand."""

from typing import NamedTuple

from engine.model.place import Place


class Acceptance(NamedTuple):
    """Which rule may find fault where, and why that is right here."""

    place: Place
    rule: str
    #: The step that it is about; empty where it is about the whole document.
    step: str
    reason: str
