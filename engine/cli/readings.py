"""Readings typed line by line: each is asked for until it can be read, and doubted before it is believed."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from engine import api
from engine.errors import Refusal
from engine.interview.question import Blank, MeasurePrompt
from engine.quantity import parse


@dataclass(frozen=True, slots=True)
class Given:
    """What has been typed of a step's readings so far."""

    typed: Mapping[str, str] = field(default_factory=dict)
    #: The reading that was just doubted; the same once more is meant.
    doubted: str = ""
    #: What was too close to call: the next readings are repeats, and `take` decides as it stands.
    close: Mapping[str, str] = field(default_factory=dict)


def wanted(prompt: MeasurePrompt, given: Given) -> Blank:
    """The first reading that is still to be typed; the first of all where none is left."""
    return next((blank for blank in prompt.blanks if blank.name not in given.typed), prompt.blanks[0])


def full(prompt: MeasurePrompt, given: Given) -> bool:
    """Whether every reading of the step has been typed."""
    return all(blank.name in given.typed for blank in prompt.blanks)


def take(prompt: MeasurePrompt, given: Given, heard: str) -> tuple[Given, str]:
    """What is given once this line was heard, and what to say of it; nothing where it was taken."""
    blank = wanted(prompt, given)
    found = [parse(part, blank.unit) for part in heard.rstrip("; ").split(";")]
    wrong = next((part for part in found if isinstance(part, Refusal)), None)
    if wrong is not None:
        return replace(given, doubted=""), str(wrong)
    seen = api.preview(blank, heard)
    if not seen.ok and given.doubted != heard:
        cure = "Read it again and check the unit; give the same reading once more to confirm it."
        return replace(given, doubted=heard), " ".join(filter(None, (f"{seen.text}.", seen.meant, cure)))
    before = given.close.get(blank.name)
    heard = f"{before}; {heard}" if before else heard
    return replace(given, typed={**given.typed, blank.name: heard}, doubted=""), ""
