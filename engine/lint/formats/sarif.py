"""Findings as SARIF 2.1.0 (OASIS, 27 March 2020), for whatever reads results of static analysis."""

import hashlib
import json
from typing import Any, Final

from engine import __version__
from engine.lint.finding import Finding
from engine.loading.library import Library

_SCHEMA: Final = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


def sarif(findings: tuple[Finding, ...], library: Library, files: frozenset[str]) -> str:
    """One run with its rules and results; columns count code points, as everywhere in Witnessmark."""
    del library, files
    rules = sorted({finding.rule for finding in findings})
    index = {slug: number for number, slug in enumerate(rules)}
    run = {
        "tool": {
            "driver": {"name": "witnessmark", "version": __version__, "rules": [_rule(r) for r in rules]}
        },
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {"ROOT": {"description": {"text": "The folder that lint was started in."}}},
        "results": [_result(finding, index[finding.rule]) for finding in findings],
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
        "locations": [{"physicalLocation": _place(finding)}],
        "partialFingerprints": {"wording/v1": fingerprint(finding)},
    }
    if finding.path:
        steps = [{"location": {"message": {"text": step}}} for step in finding.path]
        told["codeFlows"] = [{"threadFlows": [{"locations": steps}]}]
    return told


def _place(finding: Finding) -> dict[str, Any]:
    uri = finding.file.replace("\\", "/")
    artifact = {"uri": uri} if uri.startswith("/") else {"uri": uri, "uriBaseId": "ROOT"}
    region = {"startLine": finding.line, "startColumn": finding.column}
    return {"artifactLocation": artifact, "region": region}


def fingerprint(finding: Finding) -> str:
    """What stays the same when lines move: the file, the rule and the words, hashed."""
    content = f"{finding.file}\n{finding.rule}\n{finding.message}"
    return hashlib.sha256(content.encode()).hexdigest()[:32]
