"""A case as one JSON document, for people and programs outside; see schemas/case.schema.json."""

import json
from collections.abc import Sequence
from typing import Any

from engine.errors import Failure
from engine.records.codec import encode
from engine.records.event import Entry


def export(entries: Sequence[Entry]) -> dict[str, Any]:
    """The entries of one case as plain data, each with its hash.

    Raises Failure where there is no entry, Damaged for an entry that does not match its hash.
    """
    if not entries:
        raise Failure(
            "A case without events cannot be exported.", "`witnessmark cases` lists those that are."
        )
    return {"case": entries[0].case, "format": 1, "entries": [json.loads(encode(entry)) for entry in entries]}
