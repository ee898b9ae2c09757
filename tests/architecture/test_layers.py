"""The layers hold: each room imports only what lies below it, and the rooms keep to their own tools."""

import ast
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "generator" / "fingerpost"


def imported_names(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            found.add(("." * node.level) + (node.module or ""))
    return found


def modules(room: str = "") -> list[Path]:
    return sorted((PACKAGE / room).rglob("*.py"))


def test_the_import_contract_is_kept() -> None:
    command = [str(Path(sys.executable).with_name("lint-imports")), "--no-cache"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_music_needs_nothing_but_the_standard_library() -> None:
    for path in modules("music"):
        for name in imported_names(path):
            top = name.split(".")[0]
            assert name.startswith("fingerpost.music") or top in sys.stdlib_module_names, (path.name, name)


def test_imports_are_absolute_so_that_a_line_shows_its_room() -> None:
    for path in modules():
        assert not [name for name in imported_names(path) if name.startswith(".")], path


def test_only_the_outermost_rooms_write_files() -> None:
    writing = ("write_text", "write_bytes", "mkdir", "unlink", "rename", "replace_file")
    for room in ("music", "source", "course", "render", "export", "report", "workspace"):
        for path in modules(room):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Attribute) and node.attr in writing:
                    raise AssertionError(f"{path.relative_to(ROOT)}:{node.lineno} writes: {node.attr}")


def test_no_room_is_named_for_nothing_in_particular() -> None:
    vague = {"utils", "util", "helpers", "helper", "common", "misc", "manager", "base"}
    assert not [path for path in modules() if path.stem in vague]


def test_every_module_opens_with_a_line_that_says_what_it_is() -> None:
    for path in modules():
        docstring = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
        assert docstring, path
        assert len(docstring.splitlines()[0]) >= 12, path


def test_no_module_keeps_changing_state_of_its_own() -> None:
    """A module-level empty list, dict or set is a memory that two builds in one process would share."""
    for path in modules():
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None:
                empty = isinstance(node.value, ast.List | ast.Set) and not node.value.elts
                empty = empty or (isinstance(node.value, ast.Dict) and not node.value.keys)
                assert not empty, f"{path.relative_to(ROOT)}:{node.lineno}"
