"""The settings of a workshop: where they are found, what they may say, and what happens to nonsense."""

from pathlib import Path

import pytest

from engine.cli.settings import Settings, read
from engine.errors import Failure

FULL = """
library = ["trees"]
[lint]
only = ["loop"]
without = ["no-unsure"]
backlog = "backlog.json"
"""


def test_without_a_file_nothing_is_set(tmp_path: Path) -> None:
    """The plain settings count."""
    assert read(tmp_path) == Settings()


def test_every_setting_is_read(tmp_path: Path) -> None:
    """Paths are seen from the folder of the file."""
    (tmp_path / "witnessmark.toml").write_text(FULL)

    assert read(tmp_path) == Settings(
        (tmp_path / "trees",), ("loop",), ("no-unsure",), tmp_path / "backlog.json"
    )


def test_a_shared_file_has_a_table_for_us(tmp_path: Path) -> None:
    """`[tool.witnessmark]` of a pyproject.toml says the same."""
    (tmp_path / "pyproject.toml").write_text('[tool.witnessmark]\nlint = {only = ["loop"]}\n')

    assert read(tmp_path).only == ("loop",)


def test_the_nearest_file_counts(tmp_path: Path) -> None:
    """A folder below may settle things for itself; what it leaves out is plain, not the other's."""
    (tmp_path / "witnessmark.toml").write_text(FULL)
    below = tmp_path / "a/b"
    below.mkdir(parents=True)
    (tmp_path / "a/witnessmark.toml").write_text("library = []\n")

    assert read(below) == Settings()


def test_a_shared_file_without_our_table_is_passed_over(tmp_path: Path) -> None:
    """So the file of a folder above counts."""
    (tmp_path / "witnessmark.toml").write_text(FULL)
    below = tmp_path / "a"
    below.mkdir()
    (below / "pyproject.toml").write_text("[project]\nname = 'a'\n")

    assert read(below).only == ("loop",)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("librari = []\n", "there is no setting `librari`. Did you mean `library`?"),
        ("[lint]\nonli = []\n", "there is no setting `lint.onli`. Did you mean `only`?"),
        ('library = "trees"\n', "`library` is 'trees'. It has to be a list of texts."),
        ("[lint]\nonly = [1]\n", "`lint.only` is [1]. It has to be a list of texts."),
        ("[lint]\nbacklog = []\n", "`lint.backlog` is []. It has to be the path of a file."),
        ("lint = 3\n", "`lint` is 3. It has to be a table."),
        ("library = [\n", "cannot be read: "),
    ],
)
def test_nonsense_is_told_with_its_cure(tmp_path: Path, text: str, said: str) -> None:
    """A setting that is misread would quietly check less than its author believes."""
    (tmp_path / "witnessmark.toml").write_text(text)

    with pytest.raises(Failure) as caught:
        read(tmp_path)
    assert said in str(caught.value)


def test_a_damaged_file_of_others_is_none_of_our_business(tmp_path: Path) -> None:
    """A shared file that is no TOML stops us only where it names us."""
    (tmp_path / "pyproject.toml").write_text("[tool\n")
    assert read(tmp_path) == Settings()

    (tmp_path / "pyproject.toml").write_text("[tool.witnessmark\n")
    with pytest.raises(Failure):
        read(tmp_path)
