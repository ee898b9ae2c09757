"""Findings in SARIF 2.1.0 (OASIS), the form in which code hosts take the results of a check.

Columns count Unicode code points from 1, the end is exclusive; addresses of files are relative.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from typing import Any
from urllib.parse import quote

from fingerpost import __version__
from fingerpost.course.rules.catalogue import CATALOGUE
from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code, Diagnostic, Edit, Span
from fingerpost.report.text import full_stop

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
INDEX: Mapping[Code, int] = {code: index for index, code in enumerate(CATALOGUE)}

Json = dict[str, Any]


def write(findings: Iterable[Diagnostic]) -> str:
    """The whole log as one JSON text. The findings' files are paths from where the log is to be read."""
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [_run(list(findings))]}
    # ASCII only, as in report/json.py.
    return json.dumps(log, ensure_ascii=True, indent=1)


def _run(findings: Sequence[Diagnostic]) -> Json:
    rules = [_rule(code, explanation) for code, explanation in CATALOGUE.items()]
    driver = {"name": "Fingerpost", "version": __version__, "rules": rules}
    return {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_result(finding) for finding in findings],
    }


def _rule(code: Code, told: Explanation) -> Json:
    """A rule with its reason, an example and what to write instead, as text and as Markdown."""
    text = f"{told.why}\n\nExample:\n{told.example}\n\nInstead:\n{told.instead}"
    fence = "`" * 4
    markdown = (
        f"{told.why}\n\nExample:\n\n{fence}\n{told.example}\n{fence}\n\nInstead:\n\n{fence}\n{told.instead}\n{fence}"
    )
    return {
        "id": str(code),
        "shortDescription": {"text": full_stop(told.title)},
        "fullDescription": {"text": told.why},
        "help": {"text": text, "markdown": markdown},
    }


def _result(finding: Diagnostic) -> Json:
    result: Json = {
        "ruleId": str(finding.code),
        "ruleIndex": INDEX[finding.code],
        "level": str(finding.severity),
        "message": {"text": sentences(finding)},
        "locations": [{"physicalLocation": {**_artifact(finding.span.file), "region": _region(finding.span)}}],
    }
    if finding.edits:
        result["fixes"] = [_fix(finding)]
    return result


def sentences(finding: Diagnostic) -> str:
    """What is wrong, what was expected and the fix, as sentences."""
    parts = [full_stop(finding.message)]
    parts += [f"Expected: {full_stop(finding.expected)}"] if finding.expected else []
    parts += [f"Fix: {full_stop(finding.fix)}"] if finding.fix else []
    return " ".join(parts)


def _fix(finding: Diagnostic) -> Json:
    by_file: dict[str, list[Edit]] = {}
    for edit in finding.edits:
        by_file.setdefault(edit.span.file, []).append(edit)
    changes = [
        {**_artifact(file), "replacements": [_replacement(edit) for edit in edits]} for file, edits in by_file.items()
    ]
    return {"description": {"text": finding.fix or full_stop(finding.message)}, "artifactChanges": changes}


def _replacement(edit: Edit) -> Json:
    replacement: Json = {"deletedRegion": _region(edit.span)}
    if edit.text:
        replacement["insertedContent"] = {"text": edit.text}
    return replacement


def _artifact(file: str) -> Json:
    return {"artifactLocation": {"uri": quote(file, errors="surrogateescape")}}


def _region(span: Span) -> Json:
    return {
        "startLine": span.line,
        "startColumn": span.column,
        "endLine": span.end_line,
        "endColumn": span.end_column,
    }
