"""Which paths lie on a network share."""

from pathlib import Path

import pytest

from engine.records import share
from engine.records.share import remote, shared

#: A table of mounts as Linux writes it (proc(5), /proc/pid/mountinfo), with optional fields or without.
MOUNTS = r"""
22 1 252:0 / / rw,relatime shared:1 - ext4 /dev/vda rw
36 22 0:30 / /srv/cases rw,relatime shared:5 master:2 - nfs4 depot:/cases rw,vers=4.2
37 36 0:31 / /srv/cases/here rw - xfs /dev/vdb rw
38 22 0:32 / /mnt/old\040depot rw - cifs //depot/old rw
39 22 0:33 / /home/user/far rw - fuse.sshfs user@depot: rw
40 22 0:34 / /mnt/twice rw - nfs depot:/a rw
41 40 0:35 / /mnt/twice rw - tmpfs tmpfs rw
42 22 0:36 / /mnt/bottle rw - 9p host rw
""".strip()


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ("/home/user/cases.db", False),
        ("/srv/cases", True),
        ("/srv/cases/deep/down/cases.db", True),
        ("/srv/casesother/cases.db", False),
        ("/srv/cases/here/cases.db", False),
        ("/mnt/old depot/cases.db", True),
        ("/home/user/far/cases.db", True),
        ("/mnt/twice/cases.db", False),
        ("/mnt/bottle/cases.db", True),
    ],
)
def test_the_deepest_mount_decides(path: str, *, expected: bool) -> None:
    """A path belongs to the last of the deepest mounts above it."""
    assert remote(MOUNTS, Path(path)) == expected


def test_a_path_is_followed_to_where_it_lies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A link to a share is on the share."""
    (tmp_path / "far").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "far")
    table = tmp_path / "mounts"
    table.write_text(f"1 0 0:1 / / rw - ext4 a rw\n2 1 0:2 / {tmp_path.resolve()}/far rw - nfs a rw\n")
    monkeypatch.setattr(share, "_MOUNTS", table)

    assert [shared(tmp_path / name / "cases.db") for name in ("link", "far", ".")] == [True, True, False]


def test_a_system_without_a_table_has_no_shares(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nothing is told nothing is held against a path."""
    monkeypatch.setattr(share, "_MOUNTS", tmp_path / "none")

    assert not shared(tmp_path)


def test_the_table_of_this_system_can_be_read(tmp_path: Path) -> None:
    """Tests run on a disk of the machine itself."""
    assert not shared(tmp_path)
