"""Texts that are hard to read beside a running engine.

What a step says and why, and what a verdict says to do, is judged together by the reading grade of Flesch
and Kincaid (1975, made for the manuals of technicians): 0.39 words a sentence, plus 11.8 syllables a word,
less 15.59. Grade 10 is the most. Fewer than 30 words are not judged, nor are other languages than English.

Bad: one long sentence of long words.

    look:
      ask: How does it look?
      why: >-
        Determination of the operational condition of the centre coupling necessitates consideration of the
        temperature dependency of the lubricant, inadequate temperatures simulating functional capability
        of the transmission components under investigation.

Good: the same in short ones.

    look:
      ask: How does it look?
      why: >-
        Only a warm coupling shows what it carries. Cold oil is thick, and turns the rear wheels by itself.
        A coupling that is dead then looks as if it were whole.
"""

from collections.abc import Iterator
from typing import Final

from engine.lint.finding import Found
from engine.lint.reading import Reading, together
from engine.lint.rule import Scope
from engine.model.tree import Ask, Do, Measure, Step, Verdict

MOST: Final = 10
FEWEST_WORDS: Final = 30


def check(scope: Scope) -> Iterator[Found]:
    """Every step with texts above the grade."""
    for document in scope.documents:
        for step in document.steps.values():
            if _hard(whole := together(_said(step))):
                yield Found(
                    step.place,
                    f"`{step.name}` reads like school year {whole.grade:.1f}; {MOST} is the most.",
                    "Write shorter sentences, of shorter words.",
                )


def _hard(whole: Reading) -> bool:
    return whole.words >= FEWEST_WORDS and whole.grade > MOST and whole.english


def _said(step: Step) -> tuple[str, ...]:
    match step:
        case Do() | Ask() | Measure():
            return step.text, step.why
        case Verdict():
            return step.text, step.correction, step.why
        case _:
            return (step.why,)
