"""A step that does not fit a screen of 80 columns and 24 lines.

What has to be scrolled is not read with oil on the hands. Of a question or something to do, the words, the
why, what the sheet shows and the answers stand on the screen together; of a measurement, the words, the
fields and the bands. A value of the sheet counts as one line, and so do the states of the vehicle.

Bad: fourteen answers stand below the question.

    which: {ask: Which wheel turns?, answers: [
      {say: One, then: a}, {say: Two, then: b}, {say: Three, then: c}, {say: Four, then: d},
      {say: Five, then: e}, {say: Six, then: f}, {say: Seven, then: g}, {say: Eight, then: h},
      {say: Nine, then: i}, {say: Ten, then: j}, {say: Eleven, then: k}, {say: Twelve, then: l},
      {say: A few, then: m}, {say: Many, then: n}]}

Good: fewer answers; or two questions, one after the other.

    which: {ask: Which wheel turns?, answers: [{say: One at the front, then: a}, {say: Another, then: b}]}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.lint.screen import MOST_ANSWERS, ROOM, Shown, answer_lines, fits, needed
from engine.model.tree import Ask, Do, Measure


def check(scope: Scope) -> Iterator[Found]:
    """Every step that would have to be scrolled."""
    gauges = scope.library.shop.gauges
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Do | Ask | Measure) and not fits(step, gauges):
                yield Found(step.place, _message(step, needed(step, gauges)), _cure(step))


def _message(step: Shown, taken: int) -> str:
    if isinstance(step, Ask) and answer_lines(step) > MOST_ANSWERS:
        return (
            f"The answers of `{step.name}` take {answer_lines(step)} lines; "
            f"a small screen has room for {MOST_ANSWERS}."
        )
    return f"`{step.name}` takes {taken} lines; a small screen has room for {ROOM}."


def _cure(step: Shown) -> str:
    match step:
        case Ask():
            return "Shorten the question, its why or its answers, or ask in two steps."
        case Measure():
            return "Shorten the words or what the bands say, or take fewer readings in one step."
        case _:
            return "Shorten the words or the why, or tell it in two steps."
