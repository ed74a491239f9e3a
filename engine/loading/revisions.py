"""Documents of a git revision, read with git itself: `REVISION:PATH`, as git writes it."""

import subprocess
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from engine.errors import Failure
from engine.loading.leaf import File

_CURE = "Write REVISION:PATH from the top folder of the repository, as in HEAD~1:trees."


class Spot(NamedTuple):
    """A revision and a path in it."""

    revision: str
    path: str

    def __str__(self) -> str:
        return f"{self.revision}:{self.path}"


def spot(argument: str) -> Spot | None:
    """The revision and the path of `REVISION:PATH`; None where there is no colon outside of braces.

    >>> spot("HEAD~1:trees/a.yaml"), spot("main^{/fix: it}:a:b"), spot("trees")
    (Spot(revision='HEAD~1', path='trees/a.yaml'), Spot(revision='main^{/fix: it}', path='a:b'), None)
    """
    depth = 0
    for number, character in enumerate(argument):
        depth += (character == "{") - (character == "}")
        if character == ":" and depth <= 0:
            return Spot(argument[:number], argument[number + 1 :])
    return None


def files(at: Spot) -> Iterator[File]:
    """The YAML file at a path of a revision, or every one below it; raises Failure with the cure.

    What is asked for goes to git by its input and never as a word of the command, so that no name is
    taken for an option.
    """
    number, kind = _object(at)
    if kind == "blob":
        yield _file(str(at), at.path, _blobs([number])[0])
        return
    listed = _git("ls-tree", "-r", "-z", "--full-tree", number).split(b"\0")
    found = [
        (line.partition(b"\t")[2], line.split(None, 3)[2].decode()) for line in listed if line[:3] == b"100"
    ]
    wanted = [(path, blob) for path, blob in found if _wanted(path)]
    top = str(at).rstrip("/")
    for (path, _), content in zip(wanted, _blobs([blob for _, blob in wanted]), strict=True):
        name = path.decode(errors="replace")
        yield _file(f"{top}{'' if top.endswith(':') else '/'}{name}", name, content)


def _wanted(path: bytes) -> bool:
    hidden = any(part.startswith(b".") for part in path.split(b"/"))
    return path.endswith((b".yaml", b".yml")) and not hidden


def _file(shown: str, path: str, content: bytes) -> File:
    printable = shown.encode(errors="surrogateescape").decode(errors="replace")
    return File(printable, path.rpartition("/")[2] if "/" not in path else path, content)


def _object(at: Spot) -> tuple[str, str]:
    """The object that a path of a revision is, and its kind."""
    if "\n" in str(at) or "\0" in str(at):
        raise Failure("A revision or path has a line end in it.", _CURE)
    asked = f"{str(at).rstrip('/') if at.path else at}\n".encode(errors="surrogateescape")
    answer = _git("cat-file", "--batch-check", given=asked).decode(errors="replace").strip()
    parts = answer.rsplit(" ", 2)
    if len(parts) == 3 and parts[1] in ("blob", "tree"):
        return parts[0], parts[1]
    raise Failure(f"Git knows no {at}: {_why(at)}.", _CURE)


def _why(at: Spot) -> str:
    asked = f"{at.revision}^{{tree}}\n".encode(errors="surrogateescape")
    answer = _git("cat-file", "--batch-check", given=asked)
    known = answer.rstrip().rsplit(b" ", 2)[-2:-1] == [b"tree"]
    return f"there is no {at.path} in it" if known else f"there is no revision {at.revision}"


def _blobs(numbers: Sequence[str]) -> list[bytes]:
    """The contents of blobs, in their order."""
    if not numbers:
        return []
    told = _git("cat-file", "--batch", given="".join(f"{number}\n" for number in numbers).encode())
    contents: list[bytes] = []
    at = 0
    for _ in numbers:
        end = told.index(b"\n", at)
        size = int(told[at:end].split()[2])
        contents.append(told[end + 1 : end + 1 + size])
        at = end + size + 2
    return contents


def _git(*words: str, given: bytes = b"") -> bytes:
    try:
        done = subprocess.run(["git", *words], input=given, capture_output=True, check=False)  # noqa: S603, S607  reason: no shell, no word of a person's, and git is the one of the search path
    except FileNotFoundError:
        raise Failure("Git is not to be found.", "Install git, or name files and folders.") from None
    if done.returncode:
        why = done.stderr.decode(errors="replace").strip().removeprefix("fatal: ") or "no reason given"
        raise Failure(f"Git cannot read this: {why}.", "Run it inside the repository that has the revision.")
    return done.stdout
