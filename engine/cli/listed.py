"""All calculators listed: lines for people, and data for machines."""

from typing import Any

from engine.trade.contents import CONTENTS


def listing() -> str:
    r"""All of them by family.

    >>> family, first, *_ = listing().splitlines()
    >>> print(family, first, sep="\n")
    tyres
      spread                    Largest reading minus smallest
    """
    families = {family: _titles(family) for family in CONTENTS}
    wide = max(len(name) for titles in families.values() for name in titles)
    lines: list[str] = []
    for family, titles in families.items():
        lines.append(family)
        lines += [f"  {name:<{wide}}  {title}" for name, title in titles.items()]
    return "\n".join(lines)


def listed() -> Any:
    """All of them, for machines."""
    return [
        {"name": name, "family": family, "title": title}
        for family in CONTENTS
        for name, title in _titles(family).items()
    ]


def _titles(family: str) -> dict[str, str]:
    """The titles of a family by name, whatever file they are in."""
    return {name: title for held in CONTENTS[family].values() for name, title in held.items()}
