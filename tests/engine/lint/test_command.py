"""`witnessmark lint` as a CI server calls it: exit codes, lines, JSON, and no file that could stop it."""

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from engine.cli.main import main

DOCUMENTS = Path(__file__).with_name("documents")
GOOD = DOCUMENTS / "loop/good-again.yaml"
BAD = DOCUMENTS / "loop/bad-itself.yaml"


def printed(*words: object, capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    """Exit code, standard output and standard error of a call."""
    code = main(["lint", *map(str, words)])
    out, err = capsys.readouterr()
    return code, out, err


def test_a_clean_document_ends_with_0(capsys: pytest.CaptureFixture[str]) -> None:
    """What was read is counted, and that nothing was found is said."""
    assert printed(DOCUMENTS / "no-sheet/good-fact.yaml", capsys=capsys)[1:] == (
        "1 file, 1 tree: nothing found.\n",
        "",
    )


def test_findings_end_with_1(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Each is a line with its place, the way there is below it, and the last line counts."""
    monkeypatch.chdir(BAD.parent)
    code, out, err = printed(BAD, capsys=capsys)

    assert (code, err) == (1, "")
    assert out == (
        "bad-itself.yaml:11:3: error loop: These steps lead round in a circle: first -> first. "
        "Let one of them lead on instead.\n"
        "  11 |   first:  # <- loop\n"
        "     |   ^^^^^\n"
        "    1. first: done -> first (bad-itself.yaml:11:3)\n"
        "1 file, 0 trees: 1 error, 0 warnings.\n"
    )


def test_warnings_alone_end_with_1(capsys: pytest.CaptureFixture[str]) -> None:
    """A warning is a finding."""
    code, out, _ = printed(DOCUMENTS / "no-sheet/bad-fact.yaml", capsys=capsys)

    assert (code, out.splitlines()[-1]) == (1, "1 file, 1 tree: 0 errors, 1 warning.")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["nowhere"], "There is no file or folder nowhere. Check the path."),
        (["tests/engine/lint/documents/nowhere.yaml"], "There is no file or folder "),
    ],
)
def test_what_cannot_be_read_ends_with_2(
    words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """One sentence and its cure on standard error, nothing on standard output."""
    code, out, err = printed(*words, capsys=capsys)

    assert (code, out) == (2, "")
    assert err.startswith(f"witnessmark: {said}")


def test_a_folder_without_documents_ends_with_2(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing to lint is no clean bill."""
    assert printed(tmp_path, capsys=capsys) == (
        2,
        "",
        f"witnessmark: There is no YAML file below {tmp_path}. Name a folder of documents.\n",
    )


def test_an_unknown_format_ends_with_2(capsys: pytest.CaptureFixture[str]) -> None:
    """The formats that there are, are named."""
    with pytest.raises(SystemExit) as caught:
        main(["lint", "--format", "yaml", str(GOOD)])

    assert caught.value.code == 2
    assert "json" in capsys.readouterr().err


def machine(*words: object, capsys: pytest.CaptureFixture[str]) -> Any:
    """The JSON of a call."""
    return json.loads(printed("--format", "json", *words, capsys=capsys)[1])


def test_json_has_one_shape(capsys: pytest.CaptureFixture[str]) -> None:
    """The keys of the whole and of a finding, no more and no less, each with its type."""
    told = machine(BAD, capsys=capsys)
    types = {
        "rule": str, "severity": str, "file": str, "line": int, "column": int,
        "message": str, "cure": str, "path": list,
    }  # fmt: skip

    assert {key: type(value) for key, value in told.items()} == {
        "files": int, "trees": int, "findings": list, "accepted": list, "backlog": list, "mended": int,
        "left-out": int,
    }  # fmt: skip
    assert [{key: type(value) for key, value in found.items()} for found in told["findings"]] == [types]


def _stop(told: dict[str, Any]) -> str:
    return f"{told['said']} ({told['file']}:{told['line']}:{told['column']})"


def test_json_says_what_the_lines_say(capsys: pytest.CaptureFixture[str]) -> None:
    """Places, rules, messages, cures and ways are the same in both."""
    told = machine(DOCUMENTS, capsys=capsys)
    out = printed("--format", "lines", DOCUMENTS, capsys=capsys)[1].splitlines()
    lines = [
        line
        for f in told["findings"]
        for line in (
            f"{f['file']}:{f['line']}:{f['column']}: {f['severity']} {f['rule']}: {f['message']} {f['cure']}",
            *(f"    {k}. {_stop(stop)}" for k, stop in enumerate(f["path"], 1)),
        )
    ]

    assert out[:-1] == lines
    assert out[-1].startswith(f"{told['files']} files, {told['trees']} trees: ")


def test_json_counts_files_and_trees_that_were_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    """The shipped documents, which are only referred to, are not among them."""
    told = machine(BAD, GOOD, DOCUMENTS / "unknown-name/good-sheet.yaml", capsys=capsys)

    assert (told["files"], told["trees"]) == (3, 1)


def test_a_second_copy_is_reviewed_in_place_of_the_shipped(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whoever changes a copy is not told that its name is taken, whatever mark an editor put first."""
    shipped = Path(__file__).parents[3] / "trees/vehicles/corran.yaml"
    (tmp_path / "mine.yaml").write_bytes(b"\xef\xbb\xbf" + shipped.read_bytes())

    assert printed(tmp_path, capsys=capsys)[1] == "1 file, 0 trees: nothing found.\n"


def test_a_shop_of_ones_own_goes_beside_the_shipped(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A caution more does not do away with those that ship."""
    (tmp_path / "cautions.yaml").write_text(
        "cautions: {loose-hair: {title: Loose hair, text: Tie it up., source: habit}}\n"
        "format: 1\nsources: {habit: {kind: common-practice}}\n"
    )
    text = GOOD.read_text().replace(
        "    minutes: 1\n", "    minutes: 1\n    cautions: [loose-hair, hot-parts]\n", 1
    )
    (tmp_path / "tree.yaml").write_text(text)

    assert [f for f in machine(tmp_path, capsys=capsys)["findings"] if f["rule"] == "unknown-name"] == []


UGLY = {
    "laughs.yaml": b"a: &a [x,x,x,x,x,x,x,x,x]\n"
    + b"".join(b"%c: &%c [%s]\n" % (c, c, b",".join([b"*%c" % (c - 1)] * 9)) for c in range(98, 123)),
    "deep.yaml": b"tree: " + b"[" * 10_000,
    "large.yaml": b"tree: a\n" * 400_000,
    "flood.yaml": b"tree: a\n" + b"".join(b"k%d: 1\n" % k for k in range(20_000)),
    "hex.yaml": b"tree: 0x" + b"F" * 10_000,
    "picture.yaml": bytes(range(256)) * 40,
    "escape.yaml": b'tree: "\\e[2J\\e]0;gone\\a"\n"\\u202e": "\\0"\nformat: "\\x9b31m"\n',
    "colour\x1b[31m.yaml": b"\x1b[31m",
    "two\nlines.yaml": b"tre: a\n",
    "empty.yaml": b"",
}


def test_the_ugliest_files_are_told_line_by_line(tmp_path: Path) -> None:
    """Exit code 1, a place in every line, no escape sequence, and not a word from the interpreter."""
    for name, content in UGLY.items():
        (tmp_path / name).write_bytes(content)
    run = subprocess.run(
        [
            sys.executable,
            "-c",
            "import sys, engine.cli.main as m; sys.exit(m.main(sys.argv[1:]))",
            "lint",
            "--format",
            "lines",
            tmp_path,
        ],
        capture_output=True,
        check=False,
        encoding="utf-8",
        timeout=120,
        cwd=Path(__file__).parents[3],
    )
    *told, summary = run.stdout.splitlines()

    assert (run.returncode, run.stderr) == (1, "")
    assert [
        line
        for line in told
        if not re.fullmatch(r"\S.*\.yaml:\d+:\d+: error [a-z-]+: [^\x00-\x1f\x7f-\x9f]+", line)
    ] == []
    assert summary.startswith(f"{len(UGLY)} files, 0 trees: ")
