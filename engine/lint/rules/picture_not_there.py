"""A step that shows a picture which is not there.

The path of a picture begins at the root of the library: the folder that holds `complaints` and `procedures`,
or of a document in neither its own. Capital letters count. The picture itself is not looked into.

Bad: no file has this name.

    mark: {do: Mark both flanges., picture: pictures/no-such-marks.svg}

Good: the words say it all; or the picture lies where the path says.

    mark: {do: Scribe one line across both flanges.}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.place import Place


def check(scope: Scope) -> Iterator[Found]:
    """Every path of a picture that leads to no file."""
    for document in scope.documents:
        if named := document.references.get("picture"):
            file = document.place.file
            there = scope.library.pictures.get(file, frozenset())
            for path, line, column in named:
                if path not in there:
                    yield Found(
                        Place(file, line, column),
                        f"There is no picture `{path}`.",
                        "Put the file there, or mend the path: it begins at the library's root.",
                    )
