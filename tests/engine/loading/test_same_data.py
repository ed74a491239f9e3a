"""What is read is what was written: against a writer, and against another reader where YAML 1.1 agrees."""

import re
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.loading.document import read
from tests.engine.loading import core_schema
from tests.shipped import SHIPPED

NUMBERS = st.integers(-(10**14), 10**14) | st.decimals(-10000, 10000, places=3).map(float)
#: Words that one version of YAML or the other takes for something else than text.
TRAPS = st.sampled_from(
    (
        *("no", "on", "12:30", "010", "0o17", "0x1F", "1e3", ".5", "~", "null", "true", "2001-12-14", "1_0"),
        *(
            "",
            " ",
            "a: b",
            "- a",
            "#",
            "a #b",
            "'",
            '"',
            "\\",
            "{",
            "]",
            "*a",
            "&a",
            "!a",
            "|",
            ">",
            "%",
            "@",
        ),
        *(
            "`",
            "? a",
            ": a",
            "---",
            "...",
            "<<",
            "=",
            "a\nb",
            "a\n\nb\n",
            "\ta",
            "a\t",
            "a ",
            " a",
            "\r",
            "\r\n",
        ),
    )
)
#: The characters that the loader refuses raw; a writer that escapes them may use them all the same.
UNSEEN = re.compile("[\x85\u2028\u2029\ufeff]")
TEXTS = TRAPS | st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
KEYS = TEXTS.filter(bool)


def data(texts: st.SearchStrategy[str], keys: st.SearchStrategy[str]) -> st.SearchStrategy[dict[str, Any]]:
    """Random documents: a mapping of whatever YAML can hold."""
    values = st.recursive(
        texts | NUMBERS | st.booleans() | st.none(),
        lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=4),
        max_leaves=12,
    )
    return st.dictionaries(keys, values, min_size=1, max_size=5)


class Writer(yaml.SafeDumper):
    """A writer for YAML 1.2: it puts quotes round every text that the core schema would resolve."""

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002  reason: the name is the library's
        """Every value is written out."""
        return True


def _text(writer: yaml.SafeDumper, text: str) -> yaml.ScalarNode:
    return writer.represent_scalar(
        "tag:yaml.org,2002:str", text, style='"' if core_schema.tag(text) != "str" else None
    )


Writer.add_representer(str, _text)


@settings(max_examples=150)
@given(data(TEXTS, KEYS), st.sampled_from([None, True, False]), st.sampled_from([20, 80, 100_000]))
def test_what_was_written_is_read(original: dict[str, Any], flow: bool | None, width: int) -> None:  # noqa: FBT001  reason: hypothesis gives it by place
    """Random data, written in block or in flow style, short lines or long, comes back equal."""
    text = yaml.dump(original, Dumper=Writer, default_flow_style=flow, width=width, sort_keys=False)
    document = read(text.encode(), "a.yaml")

    assert (document.problems, document.data) == ((), original)


@settings(max_examples=100)
@given(data(TEXTS.filter(lambda t: not UNSEEN.search(t)), KEYS.filter(lambda t: not UNSEEN.search(t))))
def test_what_was_written_in_any_script_is_read(original: dict[str, Any]) -> None:
    """The same with every script written out instead of escaped."""
    text = yaml.dump(original, Dumper=Writer, allow_unicode=True, sort_keys=False)
    document = read(text.encode(), "a.yaml")

    assert (document.problems, document.data) == ((), original)


@settings(max_examples=100)
@given(
    data(st.from_regex("[a-m][a-z ]{0,8}[a-m]", fullmatch=True), st.from_regex("[a-m]{3,5}", fullmatch=True))
)
def test_other_readers_read_the_same_where_both_versions_of_yaml_agree(original: dict[str, Any]) -> None:
    """With plain words and decimal numbers the 1.1 reader of the library finds the same data."""
    text = yaml.safe_dump(original)

    assert read(text.encode(), "a.yaml").data == yaml.load(text, yaml.CSafeLoader)


@pytest.mark.parametrize("name", SHIPPED)
def test_other_readers_read_the_same_in_a_shipped_document(name: str) -> None:
    """The shipped documents mean the same to a reader of YAML 1.1, so that no editor misreads them."""
    content = SHIPPED[name].read_bytes()

    assert read(content, name).data == yaml.load(content, yaml.CSafeLoader)


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    """Whatever the bytes, the answer is data or a problem, and never an exception."""
    document = read(content, "a.yaml")

    assert (document.data is None) <= bool(document.problems)


@settings(max_examples=200)
@given(st.text(st.sampled_from("ab:-?[]{},#&*!|>'\"%@` \t\n\r~1.\x00\ufeff🔧"), max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Nor does a text of YAML's own signs raise, in whatever order."""
    document = read(text.encode(), "a.yaml")

    assert (document.data is None) <= bool(document.problems)


@given(st.text(max_size=60))
def test_any_script_is_read_or_refused(text: str) -> None:
    """Nor one of all the scripts there are."""
    document = read(text.encode("utf-8", "replace"), "a.yaml")

    assert (document.data is None) <= bool(document.problems)
