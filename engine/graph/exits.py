"""Every way out of a step, with the words a person would use for it."""

from collections.abc import Iterator
from typing import NamedTuple

from engine.model.tree import Ask, Do, Measure, Run, Sort, Step


class Exit(NamedTuple):
    """One way out: what was done, said, read or known, and the target it leads to."""

    label: str
    then: str
    #: The step could not be done, so it changes nothing of the vehicle.
    aside: bool = False


def exits(step: Step) -> Iterator[Exit]:
    """The ways out of a step, in the order of the text; a verdict has none."""
    match step:
        case Do():
            yield Exit("done", step.then)
        case Ask():
            yield from (Exit(f"answer `{answer.say}`", answer.then) for answer in step.answers)
        case Measure():
            yield from (Exit(f"band {k}", band.then) for k, band in enumerate(step.bands, 1))
        case Sort():
            yield from (Exit(f"{step.fact} is {value}", then) for value, then in step.cases.items())
        case Run():
            yield from (Exit(f"{step.procedure} ends `{end}`", then) for end, then in step.outcomes.items())
    if isinstance(step, Do | Ask | Measure) and step.unsure:
        yield Exit("cannot do or tell", step.unsure, aside=True)


def targets(step: Step) -> list[str]:
    """Where the ways out of a step lead, without the words: a graph needs no more."""
    match step:
        case Ask():
            out = [answer.then for answer in step.answers]
        case Measure():
            out = [band.then for band in step.bands]
        case Do():
            out = [step.then]
        case Sort():
            return list(step.cases.values())
        case Run():
            return list(step.outcomes.values())
        case _:
            return []
    return [*out, step.unsure] if step.unsure else out
