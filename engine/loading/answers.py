"""An answers file by itself, outside any library."""

from pathlib import Path

from engine.errors import Failure, Problem, Unreadable
from engine.loading import folders, schema
from engine.loading.build_rehearsal import rehearsal
from engine.loading.document import read
from engine.model.rehearsal import Rehearsal


def answers(path: Path) -> Rehearsal:
    """The scripted walk that a file holds; raises Failure or Unreadable, every problem with its place."""
    if not path.is_file():
        raise Failure(f"There is no answers file {path}.", "Check the path after `--answers`.")
    file = next(folders.below((path,)))
    document = read(file.content, file.shown)
    problems = document.problems
    if document.data is not None and not problems:
        problems = schema.check("rehearsal", file.shown, document.data)
    if problems or document.data is None:
        raise Unreadable(
            problems or (Problem(file.shown, 1, 1, "empty-document", "Nothing is in it.", "Write it."),)
        )
    return rehearsal(file.shown, document.data)
