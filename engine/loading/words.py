"""Words of a document that name something else: each is kept with its place, so that it can be looked up."""

from collections import defaultdict
from collections.abc import Mapping
from fractions import Fraction
from sys import intern
from typing import Final

from engine.loading.data import Map, Mark
from engine.loading.exact import exact
from engine.model.tree import Reference

_NO_SHARES: Final[Mapping[str, Fraction]] = {}


class Words:
    """Gathers them while one document is built."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.references: dict[str, list[Reference]] = defaultdict(list)

    def refer(self, kind: str, name: str, mark: Mark) -> None:
        """Note a word that names something."""
        self.references[kind].append((intern(name), mark.line + 1, mark.column + 1))

    def name(self, kind: str, holder: Map, key: str) -> str:
        """A word that names something; empty where the key is absent."""
        word: str | None = holder.get(key)
        if word is None:
            return ""
        mark = holder.marks[key][1]
        word = intern(word)
        self.references[kind].append((word, mark.line + 1, mark.column + 1))
        return word

    def names(self, kind: str, holder: Map, key: str) -> tuple[str, ...]:
        """A list of words that each name something."""
        words = holder.get(key)
        if not words:
            return ()
        for word, mark in zip(words, words.marks, strict=True):
            self.refer(kind, word, mark)
        return tuple(words)

    def shares(self, holder: Map) -> Mapping[str, Fraction]:
        """What `fits` says, by suspect."""
        fits: Map | None = holder.get("fits")
        return self.probabilities(fits) if fits else _NO_SHARES

    def probabilities(self, fits: Map) -> Mapping[str, Fraction]:
        """A number for each suspect."""
        for word, marks in fits.marks.items():
            self.refer("suspect", word, marks[0])
        return {word: exact(share) for word, share in fits.items()}

    def targets(self, kind: str, owner: str, holder: Map) -> Mapping[str, str]:
        """A map from the owner's own words (values of a fact, outcomes of a procedure) to targets."""
        for word, marks in holder.marks.items():
            self.refer(kind, f"{owner}={word}", marks[0])
            self.refer("target", holder[word], marks[1])
        return dict(holder)

    def sheet(self, word: str, mark: Mark) -> str:
        """A reference to the sheet, without its leading `sheet.`."""
        path = word.removeprefix("sheet.")
        self.refer("sheet", path, mark)
        return path
