"""Any number of damaged documents: shipped ones and a short tree, after one to three mutations each.

Bytes, characters, words, lines and whole blocks are changed, the last three within what YAML allows, so
that many come through to the rules; and whatever `mutations` does is done as well. The same on every run.
"""

import re
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from random import Random
from typing import Final, NamedTuple

from engine.loading.leaf import File
from tests.engine.lint.planting import released
from tests.engine.loading.mutations import MUTATIONS, Mutation

_SHORT: Final = (Path(__file__).parent / "short_tree.yaml").read_bytes()
_LONG: Final = "complaints/no-rear-drive.yaml"
#: Two sheets; the others are of the same form.
_SHEETS: Final = ("vehicles/fellside.yaml", "vehicles/skerry.yaml")
#: What only the long tree needs, or what needs other sheets.
_LEFT_OUT: Final = (
    "rehearsals/",
    "complaints/",
    "vehicles/",
    "procedures/replace-transaxle",
    "procedures/check-automatic-fluid",
    "procedures/fit-coupling",
    "procedures/overhaul-rear-axle",
    "procedures/set-axle-gears",
    "procedures/build-limited-slip",
    "procedures/renew-limited-slip-plates",
    "procedures/take-out-rear-axle",
    "procedures/refit-rear-axle",
    "procedures/service-drive-shaft",
    "procedures/drive-eights",
)
#: What the mutants are made of and live among: all one complaint needs, its tree made short.
DOCUMENTS: Final = (
    File("complaints/short-noise.yaml", "complaints/short-noise.yaml", _SHORT),
    *(file for path, file in released().items() if path in _SHEETS or not path.startswith(_LEFT_OUT)),
)
LONG: Final = released()[_LONG]
_AROUND_LONG: Final = tuple(file for path, file in released().items() if not path.startswith("rehearsals/"))
#: Every so many mutants one is made of the long tree, which takes ten times as long to prove.
_LONG_ONE_IN: Final = 100

_WORD: Final = re.compile(r"(?<![\w.-])[\w][\w.-]*(?![\w.-])")
_NUMBERS: Final = ("0", "-1", "0.5", "1", "1e3", "80", "0.0000000001", "99999999999999999999", "010", ".5")


def _word(text: str, random: Random, words: list[str]) -> str:
    """One word made into another."""
    match = random.choice(list(_WORD.finditer(text)))
    return text[: match.start()] + random.choice(words) + text[match.end() :]


def _own_word(text: str, random: Random) -> str:
    return _word(text, random, _WORD.findall(text))


def _foreign_word(text: str, random: Random) -> str:
    return _word(text, random, _WORD.findall(random.choice(DOCUMENTS).content.decode()))


def _number(text: str, random: Random) -> str:
    found = [match for match in _WORD.finditer(text) if match[0][0].isdigit()]
    match = random.choice(found or list(_WORD.finditer(text)))
    return text[: match.start()] + random.choice(_NUMBERS) + text[match.end() :]


def _transposed(text: str, random: Random) -> str:
    at = random.randrange(len(text) - 1)
    return text[:at] + text[at + 1] + text[at] + text[at + 2 :]


def _byte(text: str, random: Random) -> bytes:
    content = bytearray(text.encode())
    content[random.randrange(len(content))] ^= 1 << random.randrange(8)
    return bytes(content)


def _gap(text: str, random: Random) -> bytes:
    content = text.encode()
    at = random.randrange(len(content))
    return content[:at] + content[at + random.randint(1, 40) :]


def _block(text: str, random: Random) -> tuple[list[str], int, int]:
    """The lines, and from where to where a block of them stands: a line with all that is deeper below it."""
    lines = text.split("\n")
    first = random.randrange(1, len(lines))
    depth = len(lines[first]) - len(lines[first].lstrip())
    last = first + 1
    while last < len(lines) and len(lines[last]) - len(lines[last].lstrip()) > depth:
        last += 1
    return lines, first, last


def _block_gone(text: str, random: Random) -> str:
    lines, first, last = _block(text, random)
    return "\n".join(lines[:first] + lines[last:])


def _block_moved(text: str, random: Random) -> str:
    lines, first, last = _block(text, random)
    block, rest = lines[first:last], lines[:first] + lines[last:]
    at = random.randrange(1, len(rest) + 1)
    return "\n".join(rest[:at] + block + rest[at:])


def _block_replaced(text: str, random: Random) -> str:
    """A block of another document, at the depth of the one whose place it takes."""
    lines, first, last = _block(text, random)
    other, start, end = _block(random.choice(DOCUMENTS).content.decode(), random)
    depth = len(lines[first]) - len(lines[first].lstrip())
    away = len(other[start]) - len(other[start].lstrip())
    return "\n".join(lines[:first] + [" " * depth + line[away:] for line in other[start:end]] + lines[last:])


_GENTLE: Final[dict[str, Mutation]] = {
    "own-word": _own_word,
    "foreign-word": _foreign_word,
    "number": _number,
    "block-gone": _block_gone,
    "renamed-target": MUTATIONS["renamed-target"],
}
_ROUGH: Final[dict[str, Mutation]] = {
    "transposed": _transposed,
    "byte": _byte,
    "gap": _gap,
    "block-moved": _block_moved,
    "block-replaced": _block_replaced,
    **MUTATIONS,
}


#: Everything that is done to a document.
KINDS: Final = frozenset((*_GENTLE, *_ROUGH))


class Mutant(NamedTuple):
    """A damaged document: its number, what was done to which, and its bytes."""

    number: int
    done: tuple[str, ...]
    original: File
    content: bytes

    @property
    def name(self) -> str:
        """What to look for when it is to be made again."""
        return f"{self.number}: {', '.join(self.done)} of {self.original.path}"


def around(original: File) -> tuple[File, ...]:
    """The sound documents that a mutant of this one lives among."""
    every = _AROUND_LONG if original == LONG else DOCUMENTS
    return tuple(file for file in every if file.path != original.path)


def mutants(first: int, count: int) -> Iterator[Mutant]:
    """So many mutants from a number on, each decided by its number alone."""
    return map(_mutant, range(first, first + count))


def _mutant(number: int) -> Mutant:
    random = Random(number)
    original = LONG if number % _LONG_ONE_IN == 0 else random.choice(DOCUMENTS)
    content: str | bytes = original.content.decode()
    done = []
    for _ in range(random.choice((1, 1, 2, 3))):
        kinds = _GENTLE if random.random() < 0.7 else _ROUGH
        kind = random.choice([*kinds])
        if isinstance(content, bytes):
            break
        content = _tried(partial(kinds[kind], content, random), content)
        done.append(kind)
    return Mutant(number, tuple(done), original, _bytes(content))


def _tried(mutate: "partial[str | bytes]", content: str) -> str | bytes:
    """The mutation, where the text still has what it is done to."""
    try:
        return mutate()
    except (IndexError, ValueError):
        return content[::-1]


def _bytes(content: str | bytes) -> bytes:
    return content if isinstance(content, bytes) else content.encode()
