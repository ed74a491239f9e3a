"""Words that tell of a hazard, and the cautions that are meant for it.

The words stand with the cautions of the shop, so that whoever trains people owns the list. A word is
found in its inflections; `turn ... wheel` is found where at most four words stand between the two.
"""

import re
from collections.abc import Iterable
from functools import cached_property
from typing import Final

from engine.model.shop import Caution

#: What may stand between two words of one sentence.
_GAP: Final = r"[^\w.!?;:]+"
#: Everything of ASCII that is no part of a word, as a space.
_APART: Final = {code: " " for code in range(128) if not re.match(r"\w", chr(code))}
_BETWEEN: Final = rf"(?:{_GAP}[\w'’-]+){{0,4}}?"


class Hazard:
    """A word, or a few, and the cautions any of which is meant for it."""

    def __init__(self, word: str, cautions: tuple[str, ...]) -> None:
        self.word = word
        self.cautions = cautions
        #: The single words of it.
        self.parts = frozenset(re.findall(r"\w+", word))

    def told(self, text: str) -> bool:
        """Whether it stands in a text of small letters.

        >>> hazard = Hazard("turn ... wheel", ("turn-by-hand",))
        >>> hazard.told("turning both rear wheels"), hazard.told("turn it. the wheels hang")
        (True, False)
        """
        return self._pattern.search(text) is not None

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        phrases = [re.findall(r"\w+", phrase) for phrase in self.word.split(" ... ")]
        spelt = (_GAP.join(f"(?:{'|'.join(inflected(part))})" for part in phrase) for phrase in phrases)
        return re.compile(rf"\b{(_BETWEEN + _GAP).join(spelt)}\b")


class Hazards:
    """The words of all cautions of a shop."""

    def __init__(self, cautions: Iterable[Caution]) -> None:
        named: dict[str, list[str]] = {}
        for caution in cautions:
            for word in caution.words:
                named.setdefault(word.lower(), []).append(caution.name)
        self._all = tuple(Hazard(word, tuple(names)) for word, names in named.items())
        #: What each inflection may be an inflection of.
        self._parts: dict[str, set[str]] = {}
        for part in frozenset[str]().union(*(hazard.parts for hazard in self._all)):
            for form in inflected(part):
                self._parts.setdefault(form, set()).add(part)

    def among(self, texts: Iterable[str]) -> tuple[Hazard, ...]:
        """The hazards all of whose words stand somewhere in these texts: seldom more than a few.

        >>> from engine.model.place import Place
        >>> hazards = Hazards([Caution("hot-oil", "", "", "", Place("c.yaml", 1, 1), ("drain", "hot oil"))])
        >>> [hazard.word for hazard in hazards.among(["Draining takes long.", "Oil drips."])]
        ['drain']
        """
        met = self._parts.keys() & set(_words("\n".join(texts).lower()))
        parts = {part for form in met for part in self._parts[form]}
        return tuple(hazard for hazard in self._all if hazard.parts <= parts) if parts else ()


def _words(text: str) -> list[str]:
    """The words of a text; splitting plain ASCII by hand takes a quarter of the time.

    >>> _words("tow-bar, 1 of 2"), _words("heiß, sehr")
    (['tow', 'bar', '1', 'of', '2'], ['heiß', 'sehr'])
    """
    return text.translate(_APART).split() if text.isascii() else re.findall(r"\w+", text)


def inflected(word: str) -> tuple[str, ...]:
    """The word, and what it becomes with the endings -s, -ed and -ing as English spells them.

    Where more than one spelling would do, all of them: what is no word stands in no text.

    >>> inflected("raise"), inflected("carry")
    (('raise', 'raises', 'raised', 'raising'), ('carry', 'carries', 'carried', 'carrying'))
    >>> inflected("drag")[-2:]
    ('dragged', 'dragging')
    """
    stem, last = word[:-1], word[-1]
    if last == "e":
        return (word, f"{word}s", f"{word}d", f"{stem}ing")
    if last == "y" and word[-2:-1] not in tuple("aeiou"):
        return (word, f"{stem}ies", f"{stem}ied", f"{word}ing")
    plain = (word, f"{word}s", f"{word}es", f"{word}ed", f"{word}ing")
    return (*plain, f"{word}{last}ed", f"{word}{last}ing")
