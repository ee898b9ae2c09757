"""The scripts of the course: their types hold, and the modules that need no page do what they say."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
TESTS = sorted(Path(__file__).parent.glob("*.test.js"))


@pytest.mark.parametrize("project", ["tsconfig.json", "tsconfig.worker.json"])
def test_types_hold_under_the_strictest_settings_of_the_typescript_compiler(project: str) -> None:
    compiler = ROOT / "node_modules/typescript/bin/tsc"
    assert compiler.is_file(), "no TypeScript compiler: `sh .ci/node` installs it, as `make test` does"
    done = _node(str(compiler), "--project", str(ROOT / project), "--pretty", "false")
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("file", TESTS, ids=lambda file: file.name)
def test_a_module_that_needs_no_page(file: Path) -> None:
    done = _node("--test", str(file))
    assert done.returncode == 0, done.stdout + done.stderr


def _node(*arguments: str) -> subprocess.CompletedProcess[str]:
    node = shutil.which("node")
    assert node, "no Node.js: `sh .ci/node` installs it, as `make test` does"
    return subprocess.run([node, *arguments], cwd=ROOT, capture_output=True, text=True, timeout=120)
