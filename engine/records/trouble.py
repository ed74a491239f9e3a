"""What the system or SQLite says when a store cannot go on, as a failure with its cure."""

import errno
from pathlib import Path
from typing import Final

from engine.errors import Damaged, Full, NotWritable, StoreFailure
from engine.plain import clean

#: Result codes of SQLite (https://www.sqlite.org/rescode.html); the low byte of an extended code.
_ERROR, _PERM, _BUSY, _LOCKED, _READONLY, CORRUPT, _FULL, _CANTOPEN, _NOTADB = 1, 3, 5, 6, 8, 11, 13, 14, 26
#: SQLITE_IOERR_SHMSIZE: no room for the file beside the store through which windows share it.
_NO_ROOM_BESIDE: Final = 4874
_NO_ROOM: Final = frozenset((errno.ENOSPC, errno.EDQUOT, errno.EFBIG))
_NOT_ALLOWED: Final = frozenset(
    (errno.EACCES, errno.EPERM, errno.EROFS, errno.ENOTDIR, errno.EISDIR, errno.EEXIST, errno.ENOENT)
)


def full(path: Path) -> Full:
    """There is no room for one more event."""
    return Full(
        f"There is no room left to write to {shown(path)}.",
        "Free some space on that disk, then do it again; everything before is kept.",
    )


def not_writable(path: Path) -> NotWritable:
    """The file or its folder may not be written."""
    return NotWritable(
        f"The cases in {shown(path)} cannot be written there.",
        "Make the file and its folder writable for you, or name another place with --store.",
    )


def damaged(path: Path) -> Damaged:
    """The file is not, or no longer, a store."""
    return Damaged(
        f"{shown(path)} is damaged or is no store of cases.",
        f"`witnessmark cases rescue {shown(path)} --store NEW-FILE` saves what can still be read.",
    )


def locked(path: Path) -> StoreFailure:
    """Another program holds the file for too long."""
    return StoreFailure(
        f"Another program keeps {shown(path)} locked.", "Close what is using it, then do it again."
    )


def of_sqlite(path: Path, code: int, message: str) -> StoreFailure:
    """The failure that an (extended) result code of SQLite means."""
    primary = code & 0xFF
    if primary == _FULL or code == _NO_ROOM_BESIDE:
        return full(path)
    if primary in (_PERM, _READONLY, _CANTOPEN):
        return not_writable(path)
    # our statements are right, so a mere error means that the table is not as it was made
    if primary in (CORRUPT, _NOTADB, _ERROR):
        return damaged(path)
    if primary in (_BUSY, _LOCKED):
        return locked(path)
    return StoreFailure(
        f"{shown(path)} cannot be used: {message}.", "Check the disk that it is on, then do it again."
    )


def of_system(path: Path, error: OSError) -> StoreFailure:
    """The failure that an error of the system means."""
    if error.errno in _NO_ROOM:
        return full(path)
    if error.errno in _NOT_ALLOWED:
        return not_writable(path)
    reason = error.strerror or str(error)
    return StoreFailure(f"{shown(path)} cannot be used: {reason}.", "Check the disk that it is on.")


def shown(path: Path) -> str:
    """A path that is safe to print."""
    return clean(str(path), lines=False)
