"""Findings as JSON, for programs."""

import json
from typing import Any

from engine.lint.finding import Finding
from engine.lint.review import Review


def machine(review: Review) -> str:
    """`{"files": n, "trees": n, "findings": [...]}` and what is known already, sorted by place.

    `accepted` are findings with the `reason` that their document gives, `backlog` those that the
    backlog holds, `mended` how many it holds that are there no more, `left-out` how many are not told because
    only some rules were chosen.
    """
    told = {
        "files": len(review.files),
        "trees": review.trees,
        "findings": [_told(finding) for finding in review.findings],
        "accepted": [{**_told(each.finding), "reason": each.reason} for each in review.accepted],
        "backlog": [_told(finding) for finding in review.old],
        "mended": review.mended,
        "left-out": review.left_out,
    }
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def _told(finding: Finding) -> dict[str, Any]:
    """A finding with the stops of its walk, each with what is done there and its place."""
    stops = [{"said": stop.said, **stop.place._asdict()} for stop in finding.path]
    return {**finding._asdict(), "path": stops}
