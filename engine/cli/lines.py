"""A prompt as lines of text, for pipes, screen readers and plain terminals: no ornament, no colour."""

from collections.abc import Iterator
from fractions import Fraction

from engine.interview.question import (
    AskPrompt,
    CautionPrompt,
    DoPrompt,
    MeasurePrompt,
    Prompt,
    VerdictPrompt,
    Where,
    gauges,
)
from engine.interview.suspicion import number
from engine.plain import clean

HELP = """\
Type the number of an answer, or a reading with or without its unit.
  u           understood, for a caution; done, for a step to do
  take        decide as it stands what is too close to call; the name or number of a reading repeats it
  cannot WHY  this cannot be done or told here
  back        step back once;  back 3  goes back to event 3 of the trail
  note TEXT   write a remark down
  trail       what was answered so far
  suspects    how likely each suspect is, and what moved it
  advice      what to do next by the numbers; the tree still leads
  pause       leave; the case is kept and can be resumed"""


def lines(prompt: Prompt) -> Iterator[str]:
    """What a person must hear before answering."""
    for line in _lines(prompt):
        yield clean(line)


def _lines(prompt: Prompt) -> Iterator[str]:
    yield from (f"Mind: {reminder}" for reminder in prompt.where.reminders)
    match prompt:
        case CautionPrompt():
            yield f"CAUTION: {prompt.caution.title}"
            yield prompt.caution.text
            yield f"It stands before: {prompt.coming}"
        case DoPrompt():
            yield from _head(prompt.where, f"Do: {prompt.text}", prompt.why, prompt.show, prompt.picture)
        case AskPrompt():
            yield from _head(prompt.where, prompt.text, prompt.why, prompt.show, prompt.picture)
            yield from (f"  {k}  {choice.say}" for k, choice in enumerate(prompt.choices, 1))
        case MeasurePrompt():
            yield from _head(prompt.where, f"Measure: {prompt.text}", prompt.why, prompt.show, prompt.picture)
            yield from _measure(prompt)
        case VerdictPrompt():
            yield from _verdict(prompt)


def _head(where: Where, text: str, why: str, show: tuple[str, ...], picture: str) -> Iterator[str]:
    place = " > ".join(where.inside[1:])
    states = f" Now: {', '.join(where.states)}." if where.states else ""
    inside = f" In: {place}." if place else ""
    yield f"[{minutes(where)} left.{inside}{states}]"
    if where.suspicion.fresh:
        yield f"Suspects: {moved(where)}"
    yield text
    if why:
        yield f"Why: {why}"
    yield from show
    if picture:
        yield f"Picture: {picture}"


def _measure(prompt: MeasurePrompt) -> Iterator[str]:
    for names, blank in gauges(prompt.blanks):
        of = f" for {names}" if names else ""
        yield f"Gauge{of}: {blank.gauge}, which shows {blank.resolution}. Believed: {blank.plausible}."
    if prompt.figure:
        yield f"Compared: {prompt.figure}."
    yield from (f"  {scale.limits}" + (f": {scale.say}" if scale.say else "") for scale in prompt.scales)
    yield from closeness(prompt)


def closeness(prompt: Prompt) -> Iterator[str]:
    """What was read and is too close to call, and what can be typed now; nothing where nothing is."""
    if not isinstance(prompt, MeasurePrompt) or prompt.close is None:
        return
    yield prompt.close.told
    also = "`take` as it stands, or `back` where it was mistyped."
    if len(prompt.blanks) == 1:
        read = ", ".join(prompt.close.typed.values())
        yield f"Read so far: {read}. Type a further reading, {also}"
        return
    for place, blank in enumerate(prompt.blanks, 1):
        wanted = ", as proposed" if blank.name in prompt.close.again else ""
        yield f"  {place}  {blank.name} once more{wanted}; so far {prompt.close.typed[blank.name]}"
    yield f"Type the number or name of the reading that is repeated, {also}"


def _verdict(prompt: VerdictPrompt) -> Iterator[str]:
    yield f"VERDICT: {prompt.verdict}"
    if prompt.why:
        yield f"Why: {prompt.why}"
    yield f"Convicted: {'; '.join(prompt.convicts) or 'no suspect'}"
    if prompt.sure:
        yield f"That this is right: {prompt.sure.told}"
    yield f"Grade: {prompt.grade}"
    yield f"Correction: {prompt.correction}"
    yield from prompt.show
    if prompt.picture:
        yield f"Picture: {prompt.picture}"
    if prompt.told:
        yield f"After the repair: {prompt.told}"
    for k, (_, title, ended) in enumerate(prompt.follow, 1):
        yield f"  {k}  {title}" + (f" (ended: {ended})" if ended else "")


def trail(where: Where) -> Iterator[str]:
    """What was settled so far, a line each with the number that `back` takes."""
    if not where.trail:
        yield "Nothing has been answered yet."
    for line in where.trail:
        yield clean(f"  {line.sequence}  {line.question} - {line.answer}", lines=False)
        yield from (clean(f"     {remark}", lines=False) for remark in line.remarks)


def moved(where: Where) -> str:
    """The suspects whose number the last sign changed, and the most probable one, in one line."""
    suspicion = where.suspicion
    if suspicion.contradicted:
        return suspicion.moved
    lead, *rest = suspicion.suspects
    changed = (one for one in rest if number(one.share) != number(one.was))
    return "; ".join(f"{one.title} {one.told}" for one in (lead, *changed)) + "."


def suspects(where: Where) -> Iterator[str]:
    """How probable each suspect is, a line each, and what moved them last."""
    yield from (clean(line, lines=False) for line in where.suspicion.told)


def minutes(where: Where) -> str:
    """How long it may still take, as `12 to 40 minutes`."""
    fewest, most = (_whole(number) for number in (where.spare.fewest, where.spare.most))
    if fewest == most:
        return f"{most} minute{'' if most == 1 else 's'}"
    return f"{fewest} to {most} minutes"


def _whole(number: Fraction) -> int:
    """Rounded up: a promise of minutes is better kept early."""
    return -(-number.numerator // number.denominator)
