"""Findings as JSON, for programs."""

import json

from engine.lint.review import Review


def machine(review: Review) -> str:
    """`{"files": n, "trees": n, "findings": [...]}` and what is known already, sorted by place.

    `accepted` are findings with the `reason` that their document gives, `backlog` those that the
    backlog holds, `mended` how many it holds that are there no more.
    """
    told = {
        "files": len(review.files),
        "trees": review.trees,
        "findings": [finding._asdict() for finding in review.findings],
        "accepted": [{**each.finding._asdict(), "reason": each.reason} for each in review.accepted],
        "backlog": [finding._asdict() for finding in review.old],
        "mended": review.mended,
    }
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"
