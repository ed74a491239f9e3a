"""How far a calculator can be trusted, in words."""

from typing import Final

MARKS: Final = {
    "published": "as published",
    "common-practice": "common practice",
    "memory": "from memory: check it before you rely on it",
    "computed": "computed",
    "invented": "invented",
}
