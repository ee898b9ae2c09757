"""The log that code hosts read: valid against the schema of SARIF 2.1.0, with everything that a finding has.

`sarif-2.1.0.schema.json` is the OASIS schema as the npm package @microsoft/jest-sarif 1.0.0-beta.0 (MIT) ships it.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import jsonschema
import pytest
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.report import sarif

from .findings import FIXABLE, FOUND, HOSTILE

SCHEMA = json.loads((Path(__file__).parent / "sarif-2.1.0.schema.json").read_text(encoding="utf-8"))


def log(*findings: Diagnostic) -> dict[str, Any]:
    out: dict[str, Any] = json.loads(sarif.write(findings))
    return out


@pytest.mark.parametrize("findings", [(), (FOUND,), (FOUND, FIXABLE, HOSTILE)])
def test_the_log_is_valid(findings: tuple[Diagnostic, ...]) -> None:
    jsonschema.Draft4Validator(SCHEMA).validate(log(*findings))


def test_the_schema_would_refuse_a_slip() -> None:
    wrong = log(FOUND)
    wrong["runs"][0]["results"][0]["level"] = "fatal"
    assert not jsonschema.Draft4Validator(SCHEMA).is_valid(wrong)


def test_a_result_has_place_level_and_rule() -> None:
    (run,) = log(FOUND)["runs"]
    (result,) = run["results"]
    assert run["columnKind"] == "unicodeCodePoints"
    assert (result["ruleId"], result["level"]) == ("finger-not-down", "error")
    assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == "finger-not-down"
    said = "Finger 3 is not down. Expected: a finger that is down: 1 or 2. Fix: 2 off."
    assert result["message"]["text"] == said
    place = result["locations"][0]["physicalLocation"]
    assert place["artifactLocation"] == {"uri": "course/fog.md"}
    assert place["region"] == {"startLine": 14, "startColumn": 3, "endLine": 14, "endColumn": 8}


def test_every_code_is_a_rule_with_its_help() -> None:
    rules = log()["runs"][0]["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == [str(code) for code in Code]
    assert all(rule["help"]["text"] and "Instead" in rule["help"]["markdown"] for rule in rules)


def test_edits_become_replacements_in_their_file() -> None:
    (fix,) = log(FIXABLE)["runs"][0]["results"][0]["fixes"]
    (change,) = fix["artifactChanges"]
    assert change["artifactLocation"]["uri"] == "the%20course/%C3%A9%2C%20fog.md"
    assert [part.get("insertedContent") for part in change["replacements"]] == [{"text": "x "}, None]
    assert change["replacements"][1]["deletedRegion"]["endColumn"] == 4


def test_a_file_of_any_name_is_a_relative_address() -> None:
    uri = log(HOSTILE)["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
    assert "\n" not in uri
    assert ":" not in uri
    assert unquote(uri) == HOSTILE.span.file
