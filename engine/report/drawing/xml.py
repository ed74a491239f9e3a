"""XML as text: a few elements, every text and attribute escaped."""

import re
from typing import Final

from engine.plain import clean

#: Signs that XML 1.0 does not allow at all, and that are no control characters.
_NEVER: Final = re.compile("[\ufffe\uffff\ud800-\udfff]")
_ESCAPES: Final = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"})


def escaped(text: str) -> str:
    """A text as it may stand between tags and in quotes; what XML cannot hold is shown instead.

    >>> escaped("a < b & 'c'")
    'a &lt; b &amp; &#39;c&#39;'
    """
    return _NEVER.sub("\ufffd", clean(text)).translate(_ESCAPES)


def element(name: str, *inside: str, **attributes: str) -> str:
    """An element with what stands inside, as it is; an underscore before a name stands for none.

    >>> element("text", escaped("1 < 2"), x="3", _class="note")
    '<text x="3" class="note">1 &lt; 2</text>'
    """
    said = "".join(
        f' {key.lstrip("_").replace("_", "-")}="{escaped(value)}"' for key, value in attributes.items()
    )
    return f"<{name}{said}>{''.join(inside)}</{name}>" if inside else f"<{name}{said}/>"
