"""Whether a path lies on a network share.

SQLite's write-ahead log needs memory that all who write can share, which several computers cannot
(https://www.sqlite.org/wal.html, section 1).
"""

import sys
from pathlib import Path
from typing import Final

#: Types of file systems that other computers may write as well, as Linux names them.
_REMOTE: Final = frozenset(
    ("nfs", "nfs4", "cifs", "smb3", "smbfs", "9p", "ceph", "glusterfs", "lustre", "afs", "ncpfs", "davfs")
)
_MOUNTS: Final = Path("/proc/self/mountinfo")


def shared(path: Path) -> bool:
    """Whether the path lies on a network share, as far as the system tells; false where it does not."""
    full = path.absolute()
    if sys.platform == "win32":
        return str(full).startswith("\\\\")
    try:
        mounts = _MOUNTS.read_text("utf-8", "surrogateescape")
    except OSError:
        return False
    return remote(mounts, full.resolve())


def remote(mounts: str, path: Path) -> bool:
    """Whether a table of mounts, as Linux writes it, has a network share at the path.

    >>> remote("36 35 0:30 / /srv/cases rw - nfs4 depot:/cases rw", Path("/srv/cases/a/cases.db"))
    True
    """
    deepest, kind = -1, ""
    for line in mounts.splitlines():
        here, _, there = line.partition(" - ")
        point = Path(_unescaped(here.split(" ")[4]))
        depth = len(point.parts)
        # of two mounts on one point the later one hides the earlier
        if depth >= deepest and path.is_relative_to(point):
            deepest, kind = depth, there.split(" ")[0]
    return kind in _REMOTE or kind.startswith(("fuse.ssh", "fuse.rclone", "fuse.gluster"))


def _unescaped(point: str) -> str:
    r"""A mount point with its octal escapes undone.

    >>> _unescaped(r"/mnt/old\040depot")
    '/mnt/old depot'
    """
    first, *rest = point.split("\\")
    return first + "".join(chr(int(part[:3], 8)) + part[3:] for part in rest)
