"""Which of the pictures that a document names are there, told without opening any of them.

A picture's path begins at the library's root: the folder that holds `complaints` and `procedures`. A document
that lies in neither of these has its own folder for a root, so its pictures are found whoever names it how.
"""

import re
from contextlib import suppress
from pathlib import Path
from typing import Final

SUFFIXES: Final = (".svg", ".png", ".jpg", ".jpeg", ".webp")
_ROOMS: Final = ("complaints", "procedures")
#: All that a path may be made of; the schema says so too.
_TOKEN: Final = re.compile(rb"[A-Za-z0-9._/-]+")
_LONGEST: Final = 200


def there(path: Path, content: bytes) -> frozenset[str]:
    """The pictures that a document's bytes name and that lie where they say, as they are named."""
    if b"picture" not in content:
        return frozenset()
    home = root(path)
    return frozenset(name for name in named(content) if _is_file(home / name))


def named(content: bytes) -> frozenset[str]:
    """Every word that could be the path of a picture inside a library.

    >>> sorted(named(b"picture: a/b.svg, ../c.svg, /d.svg, e.gif, .f.png, 'g.png'"))
    ['a/b.svg', 'g.png']
    """
    words = (word.decode("ascii") for word in set(_TOKEN.findall(content)) if len(word) <= _LONGEST)
    return frozenset(word for word in words if word.endswith(SUFFIXES) and _inside(word))


def root(path: Path) -> Path:
    """The folder at which the paths of a document's pictures begin.

    >>> root(Path("/lib/complaints/a.yaml")).as_posix(), root(Path("/lib/a.yaml")).as_posix()
    ('/lib', '/lib')
    """
    folder = path.absolute().parent
    return folder.parent if folder.name in _ROOMS else folder


def _inside(word: str) -> bool:
    return all(part and not part.startswith(".") for part in word.split("/"))


def _is_file(path: Path) -> bool:
    with suppress(OSError):  # a name that the disk cannot hold
        return path.is_file()
    return False
