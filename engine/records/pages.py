"""Rows read straight from the pages of a SQLite file, for a file that SQLite itself gives up on. Pure.

Each page is judged by itself: neither a lost header, nor a lost index, nor a cut end hides the rows of the
other pages. Source: "Database File Format", https://www.sqlite.org/fileformat2.html, sections 1.3 (header),
1.6 (b-tree pages), 2.1 (records), 4.1 (write-ahead log).
"""

from collections.abc import Iterator, Mapping
from typing import Final

Pages = Mapping[int, bytes]
#: A row's columns as far as they could be read; the first is None in a table whose key is the row's number.
Row = tuple[object, ...]

_MAGIC: Final = b"SQLite format 3\x00"
_TABLE_LEAF, _INDEX_LEAF, _INDEX_INNER = 0x0D, 0x0A, 0x02
#: The size of a page where the header that tells it is lost: what SQLite takes unless told otherwise.
_USUAL: Final = 4096


def pages(database: bytes) -> dict[int, bytes]:
    """The pages of a database by their numbers, from 1; what is left of a last page that was cut is one."""
    size = _USUAL
    if database.startswith(_MAGIC):
        size = _page_size(_number(database, 16, 2))
    return {1 + start // size: database[start : start + size] for start in range(0, len(database), size)}


def logged(wal: bytes) -> dict[int, bytes]:
    """The pages that a write-ahead log holds, the last of each number; empty where it is no log.

    Unlike SQLite this takes frames behind a damaged one too. Whoever reads them must be able to tell a sound
    row from a broken one.
    """
    size = _page_size(_number(wal, 8, 4))
    salts = wal[16:24]
    found: dict[int, bytes] = {}
    for start in range(32, len(wal) - 24, size + 24):
        if wal[start + 8 : start + 16] == salts:
            found[_number(wal, start, 4)] = wal[start + 24 : start + 24 + size]
    return found


def rows(held: Pages) -> Iterator[Row]:
    """Every row of every table and index but the schema; of a torn row, the columns before the tear."""
    size = max(map(len, held.values()), default=0)
    for number, page in held.items():
        kind = page[0] if page and number > 1 else 0  # the first page has the header and the schema alone
        if kind in (_TABLE_LEAF, _INDEX_LEAF, _INDEX_INNER):
            pointers = 12 if kind == _INDEX_INNER else 8
            count = min(_number(page, 3, 2), size // 2)
            for pointer in range(pointers, pointers + 2 * count, 2):
                yield _columns(_record(held, size, page, _number(page, pointer, 2), kind))


def _record(held: Pages, size: int, page: bytes, at: int, kind: int) -> bytes:
    """The record of the cell at this place of a page, shorter than it was where pages of it are lost."""
    if kind == _INDEX_INNER:
        at += 4  # the number of the page to its left
    length, at = _varint(page, at)
    if kind == _TABLE_LEAF:
        _, at = _varint(page, at)  # the row's number
    most = size - 35 if kind == _TABLE_LEAF else (size - 12) * 64 // 255 - 23
    if length <= most:
        return page[at : at + length]
    least = (size - 12) * 32 // 255 - 23
    here = least + (length - least) % (size - 4)
    here = here if here <= most else least
    return page[at : at + here] + _onward(held, size, _number(page, at + here, 4), length - here)


def _onward(held: Pages, size: int, number: int, length: int) -> bytes:
    """What of a record did not fit into its page, following from page to page."""
    parts: list[bytes] = []
    # a damaged number may lead round in a circle, but no record is longer than all pages
    while length > 0 and number in held and len(parts) < len(held):
        parts.append(held[number][4 : 4 + length])
        length -= size - 4
        number = _number(held[number], 0, 4)
    return b"".join(parts)


def _columns(record: bytes) -> Row:
    end, at = _varint(record, 0)
    body = end
    found: list[object] = []
    while at < end and body <= len(record):
        code, at = _varint(record, at)
        found.append(_value(code, record[body : body + _width(code)]))
        body += _width(code)
    return tuple(found)


def _width(code: int) -> int:
    return (code - 12) // 2 if code >= 12 else (0, 1, 2, 3, 4, 6, 8, 8, 0, 0, 0, 0)[code]


def _value(code: int, content: bytes) -> object:
    if code >= 12:
        return content if code % 2 == 0 else content.decode("utf-8", "replace")
    if code in (8, 9):
        return code - 8
    return int.from_bytes(content, "big", signed=True) if 1 <= code <= 6 else None


def _varint(content: bytes, at: int) -> tuple[int, int]:
    r"""A number of one to nine bytes, and where it ends.

    >>> _varint(b"\x81\x00", 0), _varint(b"\xff" * 9, 0) == (2**64 - 1, 9)
    ((128, 2), True)
    """
    value = 0
    for number, byte in enumerate(content[at : at + 9]):
        if number == 8:
            return value << 8 | byte, at + 9
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, at + number + 1
    return value, at + 9


def _number(content: bytes, at: int, width: int) -> int:
    return int.from_bytes(content[at : at + width], "big")


def _page_size(told: int) -> int:
    size = 65536 if told == 1 else told
    return size if size in (512, 1024, 2048, 4096, 8192, 16384, 32768, 65536) else _USUAL
