"""YAML 1.2.2, section 10.3.2 (tag resolution of the core schema): its table, written down once more.

The expressions are the table's own with the blanks taken out; nothing here comes from the loader.
"""

import re
from fractions import Fraction
from typing import Final

#: Regular expression of the table -> the tag it resolves to.
TABLE: Final = (
    (r"null|Null|NULL|~", "null"),
    (r"", "null"),
    (r"true|True|TRUE|false|False|FALSE", "bool"),
    (r"[-+]?[0-9]+", "int 10"),
    (r"0o[0-7]+", "int 8"),
    (r"0x[0-9a-fA-F]+", "int 16"),
    (r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", "float"),
    (r"[-+]?(\.inf|\.Inf|\.INF)", "infinite"),
    (r"\.nan|\.NaN|\.NAN", "not a number"),
)


def tag(text: str) -> str:
    """The tag that the table gives a plain scalar; `str` where no row fits."""
    return next((tag for row, tag in TABLE if re.fullmatch(row, text, re.ASCII)), "str")


def value(text: str) -> str | bool | Fraction | None:
    """What a plain scalar means; numbers as exact fractions. ValueError for the two that are not finite."""
    kind = tag(text)
    if kind == "str":
        return text
    if kind == "null":
        return None
    if kind == "bool":
        return text.lower() == "true"
    if kind.startswith("int"):
        return Fraction(int(text.removeprefix("0o").removeprefix("0x"), int(kind[4:])))
    if kind == "float":
        return Fraction(text.removesuffix(".").replace(".e", "e").replace(".E", "E"))
    raise ValueError(kind)
