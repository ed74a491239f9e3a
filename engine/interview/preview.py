"""What a reading means while it is being typed."""

from dataclasses import dataclass

from engine.errors import Refusal
from engine.interview.question import Blank
from engine.interview.slips import slip
from engine.quantity import beside, convert, parse, partner, write


@dataclass(frozen=True, slots=True)
class Preview:
    """One line for beside the field, and whether the text could be taken as it stands."""

    text: str
    ok: bool
    #: What it may have meant, as a question; empty where nothing is amiss or nothing near would fit.
    meant: str = ""


def preview(blank: Blank, typed: str) -> Preview:
    """What the text says as a reading: the other unit, or what is wrong with it."""
    if not typed.strip("; "):
        return Preview("", ok=False)
    if ";" in typed.rstrip("; "):
        return _repeated([preview(blank, part) for part in typed.rstrip("; ").split(";")])
    typed = typed.rstrip("; ")  # the mark before a further reading that has yet to be typed
    found = parse(typed, blank.unit)
    if isinstance(found, Refusal):
        return Preview(str(found), ok=False)
    value = convert(found, blank.unit)
    outside = not blank.low <= value.value <= blank.high
    warning = f"; outside what is believed here ({blank.plausible})" if outside else ""
    # typed in another unit it is told in the step's own, else in the other one that the trade uses
    other = value.unit if found.unit != value.unit else partner(value.unit)
    text = (beside(found, other) if other else write(found)) + warning
    meant = slip(typed, blank.low, blank.high, blank.unit) if outside else ""
    return Preview(text, ok=not outside, meant=meant)


def _repeated(each: list[Preview]) -> Preview:
    """Several readings of one thing: the first that is wrong, else how many there are."""
    return next((seen for seen in each if not seen.ok), Preview(f"{len(each)} readings", ok=True))
