"""The nearest known word: what somebody may have meant."""

from collections.abc import Iterable


def meant(word: str, known: Iterable[str]) -> str:
    """A cure for a word that is not known: the nearest one, or the whole list.

    >>> meant("minuts", ["minutes", "needs"])
    'Did you mean `minutes`?'
    >>> meant("x", ["minutes", "needs"])
    'Known here: `minutes`, `needs`.'
    """
    # only a slip needs it, and most runs have none
    from difflib import get_close_matches

    names = sorted(known)
    close = get_close_matches(word, names, n=1, cutoff=0.6)
    if close:
        return f"Did you mean `{close[0]}`?"
    return f"Known here: {', '.join(f'`{name}`' for name in names)}." if names else "There are none here."
