"""The backlog of an old library: what it holds is not told again, and what is new is."""

import json
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Failure
from engine.lint.backlog import part, read, written
from engine.lint.finding import Finding

HERE = Path("/shop")
FOUND = Finding("/shop/trees/a.yaml", 4, 7, "loop", "error", "Round.", "Cut it.")

findings = st.lists(
    st.builds(
        Finding,
        file=st.sampled_from(["/shop/a.yaml", "/shop/b/ü.yaml", "/c.yaml"]),
        line=st.integers(1, 9),
        column=st.just(1),
        rule=st.sampled_from(["loop", "dead-end"]),
        severity=st.just("error"),
        message=st.sampled_from(["Round.", "Taken at a.yaml:3:4.", "Taken at a.yaml:30:40."]),
        cure=st.just("Cut it."),
    ),
    max_size=12,
)


def _kept(path: Path, found: list[Finding]) -> Path:
    path.write_text(written(found, HERE), "utf-8")
    return path


@given(found=findings)
def test_what_was_written_down_is_not_told_again(
    found: list[Finding], tmp_path_factory: pytest.TempPathFactory
) -> None:
    """The same findings, moved to other lines, are all old, and none of the backlog is mended."""
    path = _kept(tmp_path_factory.mktemp("backlog") / "backlog.json", found)
    moved = [finding._replace(line=finding.line + 5) for finding in found]

    assert part(moved, read(path), HERE) == ((), tuple(moved), 0)


def test_one_more_of_the_same_words_is_new(tmp_path: Path) -> None:
    """Known once is not known twice."""
    backlog = read(_kept(tmp_path / "backlog.json", [FOUND]))
    twice = [FOUND, FOUND._replace(line=9)]

    assert part(twice, backlog, HERE).new == (twice[1],)


@pytest.mark.parametrize(
    "other",
    [
        FOUND._replace(file="/shop/trees/b.yaml"),
        FOUND._replace(rule="dead-end"),
        FOUND._replace(message="Another."),
    ],
    ids=["file", "rule", "message"],
)
def test_another_file_rule_or_message_is_new(other: Finding) -> None:
    """All three must be the same."""
    backlog = Counter({("trees/a.yaml", "loop", "Round."): 1})

    assert part([FOUND], backlog, HERE).new == ()
    assert part([other], backlog, HERE).new == (other,)


def test_what_is_not_found_again_is_mended() -> None:
    """So a reader knows that the backlog can be written anew, shorter."""
    backlog = Counter({("trees/a.yaml", "loop", "Round."): 3})

    assert part([FOUND], backlog, HERE).mended == 2


def test_files_are_named_from_the_folder_of_the_backlog() -> None:
    """So a colleague's checkout, in another place, has the same names."""
    assert json.loads(written([FOUND], HERE))["findings"] == [
        {"file": "trees/a.yaml", "rule": "loop", "message": "Round.", "times": 1}
    ]


@pytest.mark.parametrize(
    "content",
    ["", "[]", '{"format": 2, "findings": []}', '{"format": 1, "findings": [{"file": 1}]}', "[" * 100_000,
     '{"format": 1, "findings": [{"file": "a", "rule": "b", "message": "c", "times": "1"}]}'],
    ids=["empty", "list", "format", "half", "deep", "text for a number"],
)  # fmt: skip
def test_what_is_no_backlog_is_refused(content: str, tmp_path: Path) -> None:
    """With the command that writes one; a backlog half read would tell too much or too little."""
    (tmp_path / "backlog.json").write_text(content)

    with pytest.raises(Failure, match="--write-backlog"):
        read(tmp_path / "backlog.json")


def test_a_backlog_that_is_not_there_is_told(tmp_path: Path) -> None:
    """It is not taken for an empty one."""
    with pytest.raises(Failure, match="There is no backlog"):
        read(tmp_path / "none.json")
