"""Findings as SARIF 2.1.0 (OASIS, 27 March 2020), for whatever reads results of static analysis."""

import hashlib
import json
from typing import Any, Final

from engine import __version__
from engine.lint.finding import Finding
from engine.lint.identity import identity
from engine.lint.review import Review
from engine.model.place import Place

_SCHEMA: Final = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


def sarif(review: Review) -> str:
    """One run with its rules and results; columns count code points, as everywhere in Witnessmark.

    What a document accepts or the backlog holds is a result as well, marked as suppressed.
    """
    known = [*((each.finding, each.reason) for each in review.accepted), *((f, "") for f in review.old)]
    every = [*review.findings, *(finding for finding, _ in known)]
    rules = sorted({finding.rule for finding in every})
    index = {slug: number for number, slug in enumerate(rules)}
    run = {
        "tool": {
            "driver": {"name": "witnessmark", "version": __version__, "rules": [_rule(r) for r in rules]}
        },
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {"ROOT": {"description": {"text": "The folder that lint was started in."}}},
        "results": [
            *(_result(finding, index[finding.rule]) for finding in review.findings),
            *(_result(finding, index[finding.rule]) | _suppressed(why) for finding, why in known),
        ],
    }
    return (
        json.dumps({"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]}, indent=2, ensure_ascii=False)
        + "\n"
    )


def _rule(slug: str) -> dict[str, Any]:
    return {"id": slug, "help": {"text": f"`witnessmark explain {slug}` prints this rule's page."}}


def _result(finding: Finding, index: int) -> dict[str, Any]:
    told: dict[str, Any] = {
        "ruleId": finding.rule,
        "ruleIndex": index,
        "level": finding.severity,
        "message": {"text": f"{finding.message} {finding.cure}"},
        "locations": [{"physicalLocation": _place(Place(*finding[:3]))}],
        "partialFingerprints": {"wording/v1": fingerprint(finding)},
    }
    if finding.path:
        stops = [
            {"location": {"message": {"text": stop.said}, "physicalLocation": _place(stop.place)}}
            for stop in finding.path
        ]
        told["codeFlows"] = [{"threadFlows": [{"locations": stops}]}]
    return told


def _suppressed(reason: str) -> dict[str, Any]:
    """Section 3.35: in the source where the document gives its reason, else outside it, in the backlog."""
    told = {"kind": "inSource", "justification": reason} if reason else {"kind": "external"}
    return {"suppressions": [told]}


def _place(place: Place) -> dict[str, Any]:
    uri = place.file.replace("\\", "/")
    artifact = {"uri": uri} if uri.startswith("/") else {"uri": uri, "uriBaseId": "ROOT"}
    region = {"startLine": place.line, "startColumn": place.column}
    return {"artifactLocation": artifact, "region": region}


def fingerprint(finding: Finding) -> str:
    """What stays the same when lines move: the file, the rule and the words, hashed."""
    return hashlib.sha256("\n".join(identity(finding)).encode()).hexdigest()[:32]
