"""The wheel is whole: built, installed where nothing else is, it makes a course that builds strictly with its theme."""

from __future__ import annotations

import shutil
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCES = ("generator", "theme", "pyproject.toml", "README.md")


def run(*command: str | Path, cwd: Path) -> str:
    """Runs a program to its end; what it said."""
    done = subprocess.run([str(word) for word in command], cwd=cwd, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{command}\n{done.stdout}\n{done.stderr}"
    return done.stdout + done.stderr


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel built from a copy of the sources, so that nothing of an earlier build slips in."""
    folder = tmp_path_factory.mktemp("wheel")
    for name in SOURCES:
        source = ROOT / name
        leave_out = shutil.ignore_patterns("__pycache__", "*.egg-info", ".*")
        if source.is_dir():
            shutil.copytree(source, folder / name, ignore=leave_out)
        else:
            shutil.copy(source, folder / name)
    run(sys.executable, "-m", "build", "--wheel", "--outdir", folder / "dist", folder, cwd=folder)
    (made,) = (folder / "dist").glob("*.whl")
    return made


def test_it_holds_every_file_of_the_theme_and_of_the_package(wheel):
    held = set(zipfile.ZipFile(wheel).namelist())
    wanted = {f"fingerpost_theme/{path.relative_to(ROOT / 'theme').as_posix()}" for path in _files(ROOT / "theme")}
    package = ROOT / "generator" / "fingerpost"
    wanted |= {f"fingerpost/{path.relative_to(package).as_posix()}" for path in _files(package)}
    assert wanted - held == set()
    assert not [name for name in held if name.startswith(("tests/", "course/"))]


def _files(folder: Path) -> list[Path]:
    made = (path for path in folder.rglob("*") if path.is_file())
    return [path for path in made if not any(part.startswith((".", "__pycache__")) for part in path.parts)]


def test_installed_by_itself_it_makes_a_course_and_builds_it(wheel, tmp_path):
    venv.create(tmp_path / "venv", with_pip=True)
    python = tmp_path / "venv" / "bin" / "python"
    run(python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", wheel, cwd=tmp_path)
    program = tmp_path / "venv" / "bin" / "fingerpost"
    run(program, "new", "mine", cwd=tmp_path)
    assert "Nothing to put right" in run(program, "check", cwd=tmp_path / "mine")
    said = run(python, "-m", "mkdocs", "build", "--strict", cwd=tmp_path / "mine")
    assert "WARNING" not in said
    site = tmp_path / "mine" / "site"
    together = (site / "css" / "pages.css").read_text("utf-8")
    for path in _files(ROOT / "theme" / "css"):
        own, style = site / "css" / path.name, path.read_text("utf-8")
        assert path.name == "pages.css" or (style in together) != (own.is_file() and own.read_text("utf-8") == style)
    page = (site / "while-the-gates-close" / "index.html").read_text(encoding="utf-8")
    assert 'class="fp-block"' in page
    assert "css/pages.css" in page
    assert (site / "chords" / "index.html").is_file()
