"""`fingerpost check` on a folder that a stranger wrote: nothing is run, followed or passed through, all is said."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from fingerpost.cli.main import main

FORMS = ("text", "json", "sarif", "annotations")
PAGE = "# Kettle\n\n```moves\nid: {id}\nstart: x32010/-32-1-\nsteps:\n- 1 off = {name}\n```\n"
SETTINGS_THAT_RUN = {
    "tags": "extra: !!python/object/apply:os.system ['touch MARKER']\nx: !!python/name:evil.run ''\n",
    "hooks": "hooks: [evil.py]\n",
    "plugins of the branch": "plugins: [evil, fingerpost, {evil2: {run: yes}}]\nmarkdown_extensions: [evil]\n",
    "a theme of the branch": "theme: {name: null, custom_dir: evil}\n",
}
HOSTILE = (
    "\x1b[31mred\x1b[0m \x07\x9b\x1b]0;title\x07",
    "\u202egnihton\u200b\u2066",
    '"><script>alert(1)</script>',
    "::error file=a::b %0A::set-output name=x::y",
    "##[error]red ::stop-commands::x",
)
FIELDS = {
    "name": "id: new\nstart: open\nsteps:\n- 1 to B1 = {x}\n",
    "title twice": "id: new\ntitle: {x}\ntitle: {x}\nstart: open\nsteps:\n- hold\n",
    "id": "id: {x}\nstart: open\nsteps:\n- hold\n",
    "move": "id: new\nstart: open\nsteps:\n- {x}\n",
    "start": "id: new\nstart: {x}\nsteps:\n- hold\n",
    "teaches": "id: new\nstart: open\nteaches: [{x}]\nsteps:\n- hold\n",
    "tuning": "id: new\ntuning: {x}\nstart: open\nsteps:\n- hold\n",
    "cue": "id: new\nstart: open\nsteps:\n- move: hold\n  cue: {x}\n",
    "key": "id: new\n{x}: y\nstart: open\nsteps:\n- hold\n",
}


@pytest.fixture
def course(tmp_path: Path) -> Path:
    folder = tmp_path / "course"
    (folder / "docs").mkdir(parents=True)
    (folder / "mkdocs.yml").write_text("site_name: x\nplugins: [fingerpost]\n", "utf-8")
    (folder / "docs" / "kettle.md").write_text(PAGE.format(id="kettle", name="Cmaj7"), "utf-8")
    return folder


def check(course: Path, capsys, form: str) -> tuple[int, str]:
    capsys.readouterr()
    code = main(["check", str(course), "--format", form])
    return code, capsys.readouterr().out


def in_every_form(course: Path, capsys, codes: tuple[int, ...] = (0, 1)) -> dict[str, str]:
    out = {}
    for form in FORMS:
        code, out[form] = check(course, capsys, form)
        assert code in codes
    return out


def assert_harmless(forms: dict[str, str]) -> None:
    for form, text in forms.items():
        controls = {char for char in text if not char.isprintable() and char != "\n"}
        assert not controls, (form, controls)
    for line in forms["json"].splitlines():
        json.loads(line)
    json.loads(forms["sarif"])
    own = re.compile(r"::(error|warning|notice) [^:]*::")
    for line in forms["annotations"].splitlines():
        assert own.match(line) or not line.lstrip().startswith(("::", "##[")), line
    # A build's log is read for commands too: a line of the text form never begins with one.
    assert not any(line.lstrip().startswith(("::", "##[")) for line in forms["text"].splitlines())


@pytest.mark.parametrize("settings", SETTINGS_THAT_RUN.values(), ids=SETTINGS_THAT_RUN.keys())
def test_nothing_of_the_folder_is_run(course: Path, tmp_path: Path, settings: str) -> None:
    marker = tmp_path / "marker"
    for name in ("evil.py", "evil2.py", "sitecustomize.py", "evil/__init__.py", "yaml.py", "docs/mkdocs.py"):
        (course / name).parent.mkdir(exist_ok=True)
        (course / name).write_text(f"import os\nos.system('touch {marker}')\n", "utf-8")
    text = settings if "plugins" in settings else f"plugins: [fingerpost]\n{settings}"
    (course / "mkdocs.yml").write_text(f"site_name: x\n{text}".replace("MARKER", str(marker)), "utf-8")
    command = [str(Path(sys.executable).with_name("fingerpost")), "check"]
    done = subprocess.run(command, cwd=course, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert not marker.exists()


@pytest.mark.parametrize("name", ["-rf.md", "--out=x.md", "a\nb.md", "\x1b[31mred.md", "<b>x.md", "::error::x.md"])
def test_odd_names_of_files_are_shown_and_not_obeyed(course: Path, capsys, name: str) -> None:
    (course / "docs" / name).write_text(PAGE.format(id="odd", name="Dm"), "utf-8")
    forms = in_every_form(course, capsys)
    assert_harmless(forms)
    (finding,) = map(json.loads, forms["json"].splitlines())
    assert finding["file"].endswith(f"/docs/{name}")


def test_a_name_that_is_no_text_is_a_finding_and_the_rest_is_read(course: Path, capsys) -> None:
    odd = os.fsencode(course / "docs") + b"/\xff\xfe.md"
    Path(os.fsdecode(odd)).write_text(PAGE.format(id="odd", name="Dm"), "utf-8")
    (course / "docs" / "kettle.md").write_text(PAGE.format(id="kettle", name="Dm"), "utf-8")
    forms = in_every_form(course, capsys)
    assert_harmless(forms)
    found = [json.loads(line) for line in forms["json"].splitlines()]
    assert [finding["code"] for finding in found] == ["name-is-wrong", "unreadable-file"]
    assert "another name" in forms["text"]


@pytest.mark.parametrize("field", FIELDS)
def test_nothing_of_a_text_comes_through_that_could_act(course: Path, capsys, field: str) -> None:
    blocks = [f"```moves\n{FIELDS[field].format(x=hostile)}```\n" for hostile in HOSTILE]
    blocks = [block.replace("id: new\n", f"id: new-{number}\n") for number, block in enumerate(blocks)]
    (course / "docs" / "gate.md").write_text(f"# {HOSTILE[2]}\n\n" + "\n".join(blocks), "utf-8")
    forms = in_every_form(course, capsys)
    assert "docs/gate.md" in forms["text"]
    assert_harmless(forms)


@pytest.mark.parametrize("target", ["/etc/passwd", "../../secret.md", "../../folder"])
def test_a_link_out_of_the_tree_is_a_finding_and_is_not_followed(course: Path, capsys, target: str) -> None:
    (course.parent / "secret.md").write_text("# Top secret\n" + PAGE.format(id="secret", name="Dm"), "utf-8")
    (course.parent / "folder").mkdir()
    (course.parent / "folder" / "secret.md").write_text(PAGE.format(id="secret", name="Dm"), "utf-8")
    name = "odd" if target.endswith("folder") else "odd.md"
    (course / "docs" / name).symlink_to(target)
    forms = in_every_form(course, capsys)
    (finding,) = map(json.loads, forms["json"].splitlines())
    assert finding["code"] == "link-out-of-tree"
    assert not any("Top secret" in form or "root:" in form or "Dm" in form for form in forms.values())


def test_a_bomb_of_aliases_is_refused_at_once(course: Path, capsys) -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    (course / "mkdocs.yml").write_text("\n".join(lines), "utf-8")
    assert check(course, capsys, "text")[0] == 1
    assert "grows beyond all bounds when its aliases are followed" in in_every_form(course, capsys)["json"]


def test_a_binary_file_called_a_page_is_a_finding(course: Path, capsys) -> None:
    (course / "docs" / "noise.md").write_bytes(bytes(range(256)) * 40)
    forms = in_every_form(course, capsys, codes=(2,))
    assert_harmless(forms)
    assert "invalid-utf8" in forms["json"]
