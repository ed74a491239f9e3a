"""Plain scalars mean what the core schema of YAML 1.2.2 says, and nothing of YAML 1.1."""

from fractions import Fraction
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.loading.document import read
from engine.loading.scalar import TooLong, meaning
from tests.engine.loading import core_schema

#: What an author may write after a colon, and what it must mean.
MEANINGS: list[tuple[str, Any]] = [
    # truth values and nulls of YAML 1.1 that are text
    *((word, word) for word in ("no", "No", "NO", "yes", "Yes", "on", "On", "off", "OFF", "y", "n", "N")),
    *((word, word) for word in ("tRUE", "fALSE", "nULL", "none", "None", "nil", "~~", "true.", "trues")),
    ("true", True),
    ("True", True),
    ("TRUE", True),
    ("false", False),
    ("False", False),
    ("FALSE", False),
    ("~", None),
    ("null", None),
    ("Null", None),
    ("NULL", None),
    ("", None),
    # sixties, dates and underscores of YAML 1.1 that are text
    *((word, word) for word in ("12:30", "1:30:00", "190:20:30.15", "1_000", "0b101", "0b0", "0o8", "0O17")),
    *((word, word) for word in ("2001-12-14", "2001-12-14t21:59:43.10-05:00", "2001-12-14 21:59:43", "1-2")),
    *((word, word) for word in ("0x", "0o", "0xG", "-0x1F", "+0o7", "=", "<", "1e", "1e+", "e3", ".", "+")),
    *(
        (word, word)
        for word in (".e3", "1.2.3", "1,5", "5W-30", "80W-90", "1/2", "٣", "１２", "1 2", "--1", "+-1")
    ),
    *((word, word) for word in (".Nan", ".iNF", "inf", "nan", "-.nan", "+.NaN", "Infinity")),
    # numbers
    ("0", 0),
    ("-0", 0),
    ("007", 7),
    ("010", 10),
    ("-010", -10),
    ("+12", 12),
    ("0o17", 15),
    ("0o0", 0),
    ("0x1F", 31),
    ("0xff", 255),
    ("0x1e3", 483),
    ("1e3", 1000.0),
    ("1E-3", 0.001),
    ("12e03", 12000.0),
    ("-2E+05", -200000.0),
    (".5", 0.5),
    ("-.5", -0.5),
    ("5.", 5.0),
    ("+5.e1", 50.0),
    ("0.10", 0.1),
    ("685.230_15", "685.230_15"),
    ("999999999999999", 999999999999999),
    ("0.000000000000000000001", 1e-21),
    ("0xFFFFFFFFFFFF", 0xFFFFFFFFFFFF),
]

#: Numbers that no float or no gauge can keep.
REFUSED = [
    ".inf",
    "-.INF",
    "+.Inf",
    ".nan",
    ".NaN",
    ".NAN",
    "1e309",
    "-1e309",
    "1e-309",
    "1e-400",
    "4.9e-324",
    "1234567890123456",
    "-1234567890123456",
    "1.234567890123456",
    "0xFFFFFFFFFFFFFFFF",
    "0o7777777777777777",
    "9" * 5000,
    "0x" + "F" * 5000,
    "1" + "0" * 15 + "e-15",
]


@pytest.mark.parametrize(("text", "meant"), MEANINGS)
def test_a_plain_scalar_means(text: str, meant: Any) -> None:
    """Each value has the type and the value of the table in section 10.3.2."""
    document = read(f"level: {text}\n".encode(), "a.yaml")

    assert document.problems == ()
    assert document.data is not None
    assert (type(document.data["level"]), document.data["level"]) == (type(meant), meant)


@pytest.mark.parametrize("quoted", ["'{}'", '"{}"'])
@pytest.mark.parametrize("text", ["12", "true", "~", "1e3", "0x1F", ".inf", "null"])
def test_what_stands_in_quotes_is_text(quoted: str, text: str) -> None:
    """A quoted scalar has the non-specific tag `!` and is never resolved (section 6.9.1)."""
    assert read(f"level: {quoted.format(text)}".encode(), "a.yaml").data == {"level": text}


@pytest.mark.parametrize("style", ["|-\n  {}", ">-\n  {}"])
@pytest.mark.parametrize("text", ["12", "true", "~", ".inf"])
def test_a_block_scalar_is_text(style: str, text: str) -> None:
    """So is one in literal or folded style."""
    assert read(f"level: {style.format(text)}\n".encode(), "a.yaml").data == {"level": text}


@pytest.mark.parametrize("key", ["12", "true", "~", "no", "0x1F", "1e3", "null"])
def test_a_key_is_text(key: str) -> None:
    """Keys are names here, whatever else they look like."""
    assert read(f"{key}: 1".encode(), "a.yaml").data == {key: 1}


@pytest.mark.parametrize("text", REFUSED)
def test_a_number_that_cannot_be_kept_is_refused(text: str) -> None:
    """Infinity, what is no number, and more than fifteen digits: told at the place of the number."""
    found = read(f"a: 1\nlevel: {text}\n".encode(), "a.yaml").problems

    assert [(p.line, p.column, p.rule) for p in found] == [(2, 8, "number-too-long")]


@pytest.mark.parametrize(
    ("tagged", "meant"),
    [
        ("!!str 12", "12"),
        ("! 12", "12"),
        ("!!int '12'", 12),
        ("!!int 0x1F", 31),
        ("!!float 1", 1),
        ("!!float 2.5", 2.5),
        ("!!bool 'true'", True),
        ("!!null ''", None),
        ("!!map {a: 1}", {"a": 1}),
        ("!!seq [1]", [1]),
        ("!<tag:yaml.org,2002:str> 12", "12"),
    ],
)
def test_a_core_tag_decides(tagged: str, meant: Any) -> None:
    """A tag of the core schema says what a value is, whatever its form."""
    document = read(f"level: {tagged}".encode(), "a.yaml")

    assert (document.problems, document.data) == ((), {"level": meant})


@pytest.mark.parametrize(
    "tagged",
    [
        "!!int abc",
        "!!bool no",
        "!!null x",
        "!!float x",
        "!!int 1.5",
        "!!seq {a: 1}",
        "!!map [1]",
        "!!set {a}",
        "!!timestamp 2001-12-14",
        "!!binary aGk=",
        "!!python/object:os.system x",
        "!own x",
        "!!str {a: 1}",
    ],
)
def test_any_other_tag_is_refused(tagged: str) -> None:
    """A tag that is unknown, or that the value cannot have, is told where it stands."""
    found = read(f"level: {tagged}".encode(), "a.yaml").problems

    assert [(p.line, p.column, p.rule) for p in found] == [(1, 8, "unknown-tag")]


def resolved(text: str) -> Any:
    """What the loader makes of a plain scalar; numbers as exact fractions, refused ones as TooLong."""
    try:
        held = meaning(text)
    except TooLong:
        return TooLong
    return Fraction(repr(held)) if type(held) in (int, float) else held


def expected(text: str) -> Any:
    """What the table makes of it."""
    try:
        return core_schema.value(text)
    except ValueError:
        return TooLong


def test_every_short_scalar_means_what_the_table_says() -> None:
    """All texts of at most four of the characters that matter to the table."""
    letters = "019.+-eExo7FnaNi"
    texts = ("".join(text) for length in range(5) for text in product(letters, repeat=length))

    assert [t for t in texts if (type(resolved(t)), resolved(t)) != (type(expected(t)), expected(t))] == []


@given(st.from_regex("|".join(f"(?:{row})" for row, _ in core_schema.TABLE if row), fullmatch=True))
def test_every_scalar_of_the_table_means_what_the_table_says(text: str) -> None:
    """Texts drawn from the rows themselves; what cannot be kept is refused, never changed."""
    held = resolved(text)

    assert held is TooLong or (type(held), held) == (type(expected(text)), expected(text))


@given(st.text(max_size=8))
def test_a_scalar_outside_the_table_is_itself(text: str) -> None:
    """Whatever no row of the table fits is text, unchanged."""
    assert core_schema.tag(text) != "str" or meaning(text) == text
