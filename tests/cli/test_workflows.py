"""The workflows that a new course is given: who may do what, and what becomes of a forged review."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from fingerpost.cli.main import main
from markdown_it import MarkdownIt

CHECK, COMMENT = "check.yml", "review-comment.yml"


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> Path:
    course = tmp_path_factory.mktemp("new") / "course"
    assert main(["new", str(course)]) == 0
    return course / ".github" / "workflows"


def workflow(folder: Path, name: str) -> dict[str, Any]:
    return yaml.load((folder / name).read_text(encoding="utf-8"), Loader=yaml.BaseLoader)


def steps(flow: dict[str, Any]) -> list[dict[str, Any]]:
    return [step for job in flow["jobs"].values() for step in job["steps"]]


def test_the_job_that_sees_the_branch_may_only_read(folder: Path) -> None:
    flow = workflow(folder, CHECK)
    assert flow["on"] == "pull_request"
    assert flow["permissions"] == {"contents": "read"}
    assert not any("permissions" in job for job in flow["jobs"].values())
    checkouts = [step for step in steps(flow) if step.get("uses", "").startswith("actions/checkout")]
    assert {step["with"]["persist-credentials"] for step in checkouts} == {"false"}
    assert "secrets" not in (folder / CHECK).read_text()


def test_reviewing_comes_before_and_apart_from_building(folder: Path) -> None:
    jobs = workflow(folder, CHECK)["jobs"]
    assert jobs["build"]["needs"] == "review"
    assert "mkdocs" not in str(jobs["review"])
    assert "upload" not in str(jobs["build"])


def test_the_job_that_writes_never_sees_the_branch(folder: Path) -> None:
    flow = workflow(folder, COMMENT)
    assert flow["on"]["workflow_run"]["workflows"] == [workflow(folder, CHECK)["name"]]
    assert flow["permissions"] == {"actions": "read", "pull-requests": "write"}
    assert [step.get("uses", "").split("@")[0] for step in steps(flow) if "uses" in step] == [
        "actions/download-artifact"
    ]
    assert "pip" not in str(flow)
    assert "review" not in str(steps(flow)[-1]["env"]["NUMBER"])
    assert steps(flow)[-1]["env"]["NUMBER"] == "${{ github.event.workflow_run.pull_requests[0].number }}"


@pytest.mark.parametrize("name", [CHECK, COMMENT])
def test_nothing_of_the_event_is_pasted_into_a_script(folder: Path, name: str) -> None:
    assert not [step["run"] for step in steps(workflow(folder, name)) if "${{" in step.get("run", "")]


@pytest.mark.parametrize("name", [CHECK, COMMENT])
def test_scripts_for_the_shell_can_be_read_by_it(folder: Path, name: str) -> None:
    for step in steps(workflow(folder, name)):
        if "run" in step and "python" not in step.get("shell", ""):
            done = subprocess.run(["bash", "-n"], input=step["run"], capture_output=True, text=True, check=False)
            assert done.returncode == 0, done.stderr


FORGED = (
    "<script>alert(1)</script> <img src=x onerror=y> </div><a href='//x'>x</a> <!-- fingerpost review -->\n\n"
    "![x](https://example.org/x.png) [x](javascript:alert(1)) [y]: https://example.org\n\n[y]: //example.org\n\n[y]\n\n"
    "https://example.org www.example.org a@example.org @everyone #12 GH-12 gh-7 \x1b[31m \u202e\n\n"
    "<details open onclick=x><summary>\n\n`<b>` plain\n"
)


def escaped(folder: Path, tmp_path: Path, review: bytes | None) -> str:
    script = next(step for step in steps(workflow(folder, COMMENT)) if "python" in step.get("shell", ""))["run"]
    (tmp_path / "review").mkdir(exist_ok=True)
    if review is not None:
        (tmp_path / "review" / "review.markdown").write_bytes(review)
    run = [sys.executable, "-I", "-c", script]
    subprocess.run(run, env={**os.environ, "RUNNER_TEMP": str(tmp_path)}, check=True)
    return (tmp_path / "comment.md").read_text(encoding="utf-8")


def test_a_forged_review_can_not_act(folder: Path, tmp_path: Path) -> None:
    comment = escaped(folder, tmp_path, FORGED.encode())
    assert comment.startswith("<!-- fingerpost review -->\n")
    body = comment.partition("\n")[2]
    assert not re.search(r"@\w|://|www\.|#\d|(?i:gh-\d)|\]\(|\]:", body)
    assert set(re.findall(r"</?\w+[^>\u200b]*>", body)) <= {"<summary>"}
    tokens = MarkdownIt("commonmark").parse(body)
    kinds = {child.type for token in tokens for child in token.children or ()}
    assert not kinds & {"link_open", "image"}
    assert "\x1b" not in body
    assert "\u202e" not in body


def test_an_honest_review_keeps_its_folds(folder: Path, tmp_path: Path) -> None:
    fold = "<details><summary><code>gate</code>: 1</summary>\n\n- Step 4: C -> Cmaj7\n\n</details>\n"
    review = f"**1 step changed.**\n\n{fold}"
    assert escaped(folder, tmp_path, review.encode()).partition("\n")[2] == review


@pytest.mark.parametrize("size", [10, 1_000_000])
def test_a_review_is_capped(folder: Path, tmp_path: Path, size: int) -> None:
    assert len(escaped(folder, tmp_path, b"<@" * size)) < 61_000


def test_a_review_that_is_missing_or_a_link_is_said_to_be_missing(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "secret").write_text("secret")
    assert "could not be made" in escaped(folder, tmp_path, None)
    (tmp_path / "review" / "review.markdown").symlink_to(tmp_path / "secret")
    assert "secret" not in escaped(folder, tmp_path, None)
