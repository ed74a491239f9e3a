"""Small rehearsals, and the libraries that they are walked through."""

from textwrap import dedent

from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.model.rehearsal import Rehearsal
from engine.proof.rehearse import Rehearsed, rehearse
from tests.engine.interview.given import SHOP, procedure, tree

TREE = tree("""
    first: {do: Warm it up., cautions: [hot], then: second, unsure: referred}
    second:
      ask: Which wheels turn?
      answers: [{say: All four, then: third}, {say: Front only, then: sheared}]
      unsure: referred
    third:
      measure: Roll the tyres.
      readings: {gauge: rule, unit: mm, plausible: [1500, 2500], each: [left, right]}
      figure: spread
      bands: [{upto: 6, then: fourth}, {over: 6, then: referred}]
      unsure: referred
    fourth:
      measure: How far does it move?
      reading: {name: play, gauge: rule, unit: mm, plausible: [0, 5]}
      bands: [{upto: 1, then: fine}, {over: 1, then: check}]
    check: {run: look, cautions: [turning], outcomes: {seen: worn, unseen: referred}}
    fine: {verdict: Fine, suspects: [], grade: no-fault, correction: None.}
    sheared: {verdict: Sheared, suspects: [shaft], grade: repair, correction: C., follow: [look]}
    worn: {verdict: Worn, suspects: [bearing], grade: repair, correction: C.}
    referred: {verdict: Referred, suspects: [coupling], grade: refer, correction: C.}
    """)
LOOK = procedure(
    "look", "seen: Seen, unseen: Not seen", "first: {do: Look at it., then: seen, unsure: unseen}\n"
)


def script(answers: str, verdict: str = "", *, tree: str = "bench", vehicle: str = "wagon") -> str:
    """The text of a rehearsal with these answers, one a line."""
    head = f"rehearsal: try\nformat: 1\ntitle: Try\ntree: {tree}\nvehicle: {vehicle}\n"
    lines = dedent(answers).strip().splitlines()
    listed = "answers:\n" + "".join(f"  - {{{line}}}\n" for line in lines) if lines else "answers: []\n"
    return head + listed + (f"expect: {{verdict: {verdict}}}\n" if verdict else "")


def gathered(*texts: str) -> Library:
    """The library of these documents beside the shop and the wagon, sound or not."""
    shelf = {path: dedent(text) for path, text in SHOP.items()}
    for text in texts:
        kind, name = text.partition("\n")[0].split(": ")
        shelf[f"{kind}s/{name}.yaml"] = text
    return gather(File(path, path, text.encode()) for path, text in shelf.items())


def rehearsed(answers: str, verdict: str = "", *documents: str) -> Rehearsed:
    """How a rehearsal with these answers went on the bench tree, or on other documents."""
    held = gathered(*(documents or (TREE, LOOK)), script(answers, verdict))
    return rehearse(held, only(held))


def only(held: Library) -> Rehearsal:
    """The one rehearsal of a library."""
    (found,) = held.rehearsals.values()
    return found
