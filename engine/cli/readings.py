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
    #: The name of the reading that is repeated, where what was read is too close to call.
    again: str = ""


def wanted(prompt: MeasurePrompt, given: Given) -> Blank | None:
    """The reading to be typed next; None while it has yet to be said which one is repeated."""
    if prompt.close is None:
        return next((blank for blank in prompt.blanks if blank.name not in given.typed), prompt.blanks[0])
    if len(prompt.blanks) == 1:
        return prompt.blanks[0]
    return next((blank for blank in prompt.blanks if blank.name == given.again), None)


def full(prompt: MeasurePrompt, given: Given) -> bool:
    """Whether every reading of the step has been typed; of those too close to call, the repeated one."""
    if prompt.close:
        return bool(given.typed)
    return all(blank.name in given.typed for blank in prompt.blanks)


def repeated(prompt: MeasurePrompt, heard: str) -> tuple[Given, str]:
    """Which reading is meant by its name or number, and what was read at once behind it, if anything.

    Nothing is given where no reading is meant.
    """
    word, _, rest = heard.partition(" ")
    for number, blank in enumerate(prompt.blanks, 1):
        if word.lower() in (blank.name.lower(), str(number)):
            return Given(again=blank.name), rest.strip()
    return Given(), ""


def take(given: Given, blank: Blank, heard: str) -> tuple[Given, str]:
    """What is given once this line was heard, and what to say of it; nothing where it was taken."""
    found = [parse(part, blank.unit) for part in heard.rstrip("; ").split(";")]
    wrong = next((part for part in found if isinstance(part, Refusal)), None)
    if wrong is not None:
        return replace(given, doubted=""), str(wrong)
    seen = api.preview(blank, heard)
    if not seen.ok and given.doubted != heard:
        cure = "Read it again and check the unit; give the same reading once more to confirm it."
        return replace(given, doubted=heard), " ".join(filter(None, (f"{seen.text}.", seen.meant, cure)))
    kept = given.typed.get(blank.name, "").rstrip("; ")
    heard = f"{kept}; {heard}" if kept else heard
    return replace(given, typed={**given.typed, blank.name: heard}, doubted=""), ""
