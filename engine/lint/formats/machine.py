"""Findings as JSON, for programs."""

import json

from engine.lint.finding import Finding
from engine.loading.library import Library


def machine(findings: tuple[Finding, ...], library: Library, files: frozenset[str]) -> str:
    """`{"files": n, "trees": n, "findings": [...]}`, findings sorted by place."""
    trees = sum(tree.place.file in files for tree in library.trees.values())
    told = {"files": len(files), "trees": trees, "findings": [finding._asdict() for finding in findings]}
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"
