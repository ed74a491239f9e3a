"""What makes a finding the same finding after lines have moved."""

import re
from typing import Final

from engine.lint.finding import Finding

_PLACE: Final = re.compile(r"(?<=:)\d+:\d+")


def wording(finding: Finding) -> str:
    """The message without the lines and columns that it names.

    >>> told = "The name `a` is already taken at b.yaml:12:3."
    >>> wording(Finding("c.yaml", 1, 1, "name-taken", "error", told, ""))
    'The name `a` is already taken at b.yaml:.'
    """
    return _PLACE.sub("", finding.message)


def identity(finding: Finding) -> tuple[str, str, str]:
    """The file, the rule and the words: what stays when a line moves."""
    return finding.file, finding.rule, wording(finding)
