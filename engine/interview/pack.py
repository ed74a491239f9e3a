"""What a case carries with it: the text of every document that its walk may enter."""

import hashlib
import json
from collections.abc import Mapping

from engine.graph.view import entered
from engine.loading.library import Library
from engine.records.event import Opened


def pack(library: Library, tree: str, vehicle: str, label: str = "", by: str = "") -> Opened:
    """The event that opens a case on a tree and a vehicle of the library."""
    names = [f"tree {tree}", f"vehicle {vehicle}", "cautions", "states", "gauges", "facts"]
    names += [f"procedure {name}" for name in entered(library.trees[tree], library.procedures)]
    paths = sorted({path for name in names for path in library.paths.get(name, ())})
    documents = {path: library.texts[path] for path in paths}
    titles = library.trees[tree].title, library.sheets[vehicle].title
    return Opened(tree, vehicle, documents, digest(documents), *titles, label, by)


def digest(documents: Mapping[str, str]) -> str:
    """SHA-256 over the documents, in the order of their paths, as hexadecimal text."""
    content = json.dumps(sorted(documents.items()), ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(content.encode()).hexdigest()
