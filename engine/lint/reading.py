"""How hard a text is to read: the grade of Flesch and Kincaid.

J. P. Kincaid, R. P. Fishburne, R. L. Rogers and B. S. Chissom, Derivation of New Readability Formulas for
Navy Enlisted Personnel, Research Branch Report 8-75, 1975: 0.39 words a sentence, plus 11.8 syllables a
word, less 15.59. It was made for the manuals of technicians who read English, and says nothing of others.
"""

import re
from functools import lru_cache
from typing import Final, NamedTuple

#: The end of a sentence; no end are the point of a number and the one behind a single letter.
_END: Final = re.compile(r"(?<!\b[a-z])[.!?]+(?=[\s\"')\]]|$)|\n+")
_WORD: Final = re.compile(r"[a-z0-9]+(?:['’.,][a-z0-9]+)*")
_VOWELS: Final = re.compile(r"[aeiouy]+")
#: An e that is not heard: at the end, of `some` and `every` in longer words too, and before s or d where
#: these make no syllable of their own.
_SILENT: Final = re.compile(
    r"[^aeiouylr]e$|[aeiouy][lr]e$|[gq]ue$|[^aeiouylrsxzcgh]es$|[aeiouy][lr]es$|[^aeiouytd]ed$"
    r"|^every(?=.)|^some(?=.)"
)
#: Vowels side by side that are heard apart.
_APART: Final = re.compile(
    r"i[ou]m|iu|io(?![un])|ia(?![ln]$)|ier$|eo(?![up])|(?<![qg])uid|(?<![qg])u[ao](?!rd|nt)|ue[ln]"
    r"|[aeiouy]ing$|ism$"
)
#: Words that hardly an English sentence is without.
_ENGLISH: Final = frozenset(("the", "a", "an", "and", "of", "to", "is", "it", "with", "that", "by", "for"))


class Reading(NamedTuple):
    """What the formula wants to know of a text, or of several together."""

    words: int
    sentences: int
    syllables: int
    #: Words that are among the commonest of English.
    common: int

    @property
    def english(self) -> bool:
        """Whether it is English, as far as that can be told: one word in twelve is among the commonest."""
        return 12 * self.common >= self.words

    @property
    def grade(self) -> float:
        """The school year, as counted in America, in which the text is read without effort.

        >>> round(reading("The cat sat on the mat.").grade, 2)
        -1.45
        """
        if not self.words:
            return 0.0
        return 0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59


@lru_cache(maxsize=4096)
def together(texts: tuple[str, ...]) -> Reading:
    """Several texts read one after the other; each begins a sentence of its own.

    Authors repeat themselves: a library has many steps twice.
    """
    return Reading(*map(sum, zip(*map(reading, texts), strict=True)))


@lru_cache(maxsize=4096)
def reading(text: str) -> Reading:
    """The counts of one text.

    >>> reading("It turns. It stops at 12.5 mm.")
    Reading(words=7, sentences=2, syllables=7, common=2)
    """
    low = text.lower()
    words = _WORD.findall(low)
    return Reading(
        words=len(words),
        sentences=sum(_WORD.search(part) is not None for part in _END.split(low)),
        syllables=sum(map(syllables, words)),
        common=sum(map(_ENGLISH.__contains__, words)),
    )


@lru_cache(maxsize=20_000)
def syllables(word: str) -> int:
    """Syllables of a word in small letters, by its spelling; of a number one.

    >>> [syllables(word) for word in ("raise", "raised", "rotated", "bottle", "vehicle", "hydraulic", "12.5")]
    [1, 1, 3, 2, 3, 3, 1]
    """
    groups = len(_VOWELS.findall(word))
    return max(1, groups - len(_SILENT.findall(word)) + len(_APART.findall(word)))
