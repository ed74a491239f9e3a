"""Damage to a document, as slips of the pen, broken disks and ill will do it; the same on every run."""

import re
from collections.abc import Callable, Mapping
from random import Random
from typing import Final

Mutation = Callable[[str, Random], str | bytes]

_PAIR: Final = re.compile(r"^(?P<lead> *(?:- )?)(?P<key>[a-z][a-z-]*):(?P<value> \S.*)$", re.MULTILINE)
#: The lines of a text that is written below its key, where a colon is a colon.
_FOLDED: Final = re.compile(r"(?m)^( *)[^\n]*>-\n(?:\1 +[^\n]*\n)+")
_NUMBER: Final = re.compile(r"(?<=: )\d+(?:\.\d+)?\b|(?<=\[)\d+")
_TARGET: Final = re.compile(r"(?<=then: )[a-z][a-z-]*|(?<=start: )[a-z][a-z-]*|(?<=unsure: )[a-z][a-z-]*")
_SIGNS: Final = "\"'[]{},:#&*!|>%@`?-~\\ \n\t=<"


def _at(text: str, random: Random, what: str) -> str:
    """The text with something put in at a random place."""
    spot = random.randrange(len(text) + 1)
    return text[:spot] + what + text[spot:]


def _replace(text: str, random: Random, pattern: re.Pattern[str], what: str) -> str:
    """The text with one match of a pattern replaced; a number is put at the end where none matches."""
    found = list(pattern.finditer(text))
    if not found:
        return f"{text}extra: 1\n"
    match = random.choice(found)
    return text[: match.start()] + what + text[match.end() :]


def _value(text: str, random: Random, what: str) -> str:
    """The text with the value of one key replaced."""
    folded = [match.span() for match in _FOLDED.finditer(text)]
    pairs = [pair for pair in _PAIR.finditer(text) if not any(a < pair.start() < b for a, b in folded)]
    match = random.choice(pairs)
    return text[: match.start("value")] + what + text[match.end("value") :]


def _lines(change: Callable[[list[str], int, Random], None]) -> Mutation:
    """A change of the list of lines, told at which line to begin."""

    def mutate(text: str, random: Random) -> str:
        lines = text.split("\n")
        change(lines, random.randrange(1, len(lines) - 1), random)
        return "\n".join(lines)

    return mutate


def _drop(lines: list[str], at: int, _: Random) -> None:
    del lines[at]


def _double(lines: list[str], at: int, _: Random) -> None:
    lines.insert(at, lines[at])


def _swap(lines: list[str], at: int, random: Random) -> None:
    other = random.randrange(1, len(lines) - 1)
    lines[at], lines[other] = lines[other], lines[at]


def _indent(lines: list[str], at: int, random: Random) -> None:
    lines[at] = " " * random.choice([1, 2, 3]) + lines[at]


def _outdent(lines: list[str], at: int, _: Random) -> None:
    inner = next((k for k in (*range(at, len(lines)), *range(at)) if lines[k].startswith("  ")), at)
    lines[inner] = lines[inner][1:]


def _tab(lines: list[str], at: int, _: Random) -> None:
    inner = next((k for k in (*range(at, len(lines)), *range(at)) if lines[k].startswith("  ")), at)
    lines[inner] = "\t" + lines[inner].lstrip()


def _missing(lines: list[str], at: int, _: Random) -> None:
    pair = next((k for k in (*range(at, len(lines)), *range(at)) if re.match(r" *[a-z-]+: \S", lines[k])), at)
    del lines[pair]


def _bytes(text: str, random: Random, what: bytes) -> bytes:
    content = text.encode()
    spot = random.randrange(len(content) + 1)
    return content[:spot] + what + content[spot:]


def _key(text: str, random: Random, change: Callable[[str], str]) -> str:
    match = random.choice(list(_PAIR.finditer(text)))
    return text[: match.start("key")] + change(match["key"]) + text[match.end("key") :]


def _twisted(word: str) -> str:
    """The word with its first two letters changed about, or a letter more where they are the same."""
    return word[1] + word[0] + word[2:] if len(word) > 1 and word[0] != word[1] else f"{word}x"


def _renamed(text: str, random: Random) -> str:
    found = list(_TARGET.finditer(text))
    if not found:
        return _key(text, random, _twisted)
    match = random.choice(found)
    return text[: match.start()] + _twisted(match[0]) + text[match.end() :]


MUTATIONS: Final[Mapping[str, Mutation]] = {
    "cut": lambda text, random: text[: random.randrange(1, len(text) - 1)],
    "cut-bytes": lambda text, random: text.encode()[: random.randrange(1, len(text))] + b"\xe2\x82",
    "drop-line": _lines(_drop),
    "double-line": _lines(_double),
    "swap-lines": _lines(_swap),
    "indent": _lines(_indent),
    "outdent": _lines(_outdent),
    "tab": _lines(_tab),
    "missing-key": _lines(_missing),
    "sign": lambda text, random: _at(text, random, random.choice(_SIGNS)),
    "sign-again": lambda text, random: _at(text, random, random.choice(_SIGNS)),
    "control": lambda text, random: _at(
        text, random, chr(random.choice([0, 1, 7, 8, 11, 12, 27, 127, 0x9F]))
    ),
    "unseen": lambda text, random: _at(text, random, random.choice("\x85\u2028\u2029\ufeff")),
    "byte": lambda text, random: _bytes(text, random, bytes([random.choice([0x80, 0xC0, 0xF5, 0xFF])])),
    "quote": lambda text, random: _value(text, random, ' "never closed'),
    "behind-quote": lambda text, random: _value(text, random, ' "closed" and more'),
    "bracket": lambda text, random: _value(text, random, " [never, closed"),
    "brace": lambda text, random: _value(text, random, " {never: closed"),
    "deep": lambda text, random: _value(text, random, " " + "[" * 200 + "]" * 200),
    "huge-number": lambda text, random: _replace(text, random, _NUMBER, "9" * 400),
    "far-number": lambda text, random: _replace(text, random, _NUMBER, "1e999"),
    "negative": lambda text, random: _replace(text, random, _NUMBER, "-5"),
    "number-for-text": lambda text, random: _value(text, random, " 12"),
    "nothing": lambda text, random: _value(text, random, ""),
    "list-for-value": lambda text, random: _value(text, random, " [1, two, {three: 3}]"),
    "map-for-value": lambda text, random: _value(text, random, " {some: thing}"),
    "truth-for-value": lambda text, random: _value(text, random, " true"),
    "blank-text": lambda text, random: _value(text, random, ' "  "'),
    "long-text": lambda text, random: _value(text, random, " " + "long " * 400),
    "unknown-key": lambda text, random: _key(text, random, _twisted),
    "renamed-target": _renamed,
    "alias": lambda text, random: _value(text, random, " *nowhere"),
    "tag": lambda text, random: _value(text, random, " !!python/object:os.system [true]"),
    "merge": lambda text, _: f"{text}<<: {{format: 1}}\n",
    "list-key": lambda text, _: f"{text}? [a, b]\n: c\n",
    "second-document": lambda text, _: f"{text}---\n{text}",
    "second-kind": lambda text, _: f"{text}tree: other\n",
    "format-two": lambda text, _: text.replace("format: 1", "format: 2"),
}
