"""mkdocs.yml of a stranger: read for its values, never obeyed."""

from pathlib import Path

import pytest
from fingerpost.diagnostics import Code
from fingerpost.workspace.settings_file import read_settings_file


def read(folder: Path, text: str | bytes):
    path = folder / "mkdocs.yml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_settings_file(path, folder)


def test_plain_settings_and_their_places(tmp_path):
    file = read(
        tmp_path, "site_name: Lock Six\nplugins:\n  - search\n  - fingerpost:\n      capo: 3\n      clean: 0x10\n"
    )
    assert file.values["plugins"] == ["search", {"fingerpost": {"capo": 3, "clean": 16}}]
    place = file.places["plugins", 1, "fingerpost", "capo"]
    assert (place.line, place.column) == (5, 7)
    assert file.findings == ()


@pytest.mark.parametrize(
    "value",
    [
        "!!python/object/apply:os.system ['touch PWNED']",
        "!!python/name:os.system ''",
        "!!python/object/new:subprocess.Popen [['touch', 'PWNED']]",
        "!ENV HOME",
        "!include /etc/passwd",
        "!!python/tuple [1, 2]",
        "!!python/dict {a: 1}",
    ],
)
def test_a_tag_makes_nothing_and_runs_nothing(tmp_path, monkeypatch, value):
    monkeypatch.chdir(tmp_path)
    file = read(tmp_path, f"site_name: x\nextra: {value.replace('PWNED', str(tmp_path / 'pwned'))}\n")
    assert file.usable
    assert file.values == {"site_name": "x", "extra": None}
    assert not (tmp_path / "pwned").exists()


def test_aliases_serve_and_merge(tmp_path):
    file = read(tmp_path, "base: &b {capo: 1, clean: 2}\nmine:\n  <<: *b\n  capo: 4\n")
    assert file.values["mine"] == {"capo": 4, "clean": 2}


def test_a_bomb_of_aliases_is_refused(tmp_path):
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    file = read(tmp_path, "\n".join(lines))
    assert not file.usable
    assert "aliases" in file.findings[0].message


@pytest.mark.parametrize("text", ["a: &a [*a]", "[" * 5000, "a: {" * 3000])
def test_endless_or_deep_nesting_is_refused(tmp_path, text):
    file = read(tmp_path, text)
    assert not file.usable
    assert file.findings[0].code is Code.UNREADABLE_FILE


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("site_name: x\nnav: [a, b\nplugins: y\n", 3, "can't be read here"),
        ("- a\n- b\n", 1, "holds no settings"),
        (b"site_name: \xff\n", 1, "not UTF-8"),
        (b"site_name: \x00\n", 1, "characters that no text has"),
        ("x: " + "a" * 1_000_001, 1, "bytes"),
    ],
)
def test_what_can_not_be_read_is_said_with_its_place(tmp_path, text, line, says):
    file = read(tmp_path, text)
    assert not file.usable
    assert says in file.findings[0].message
    assert file.findings[0].span.line == line or says == "can't be read here"


def test_inherit_inside_the_tree(tmp_path):
    (tmp_path / "base.yml").write_text("site_name: base\nextra: {a: 1, b: 2}\n")
    file = read(tmp_path, "INHERIT: base.yml\nextra: {b: 3}\n")
    assert file.values["site_name"] == "base"
    assert file.values["extra"] == {"a": 1, "b": 3}


def test_inherit_out_of_the_tree_is_refused(tmp_path):
    inner = tmp_path / "course"
    inner.mkdir()
    (tmp_path / "secret.yml").write_text("site_name: secret\n")
    file = read(inner, "INHERIT: ../secret.yml\nsite_name: x\n")
    assert file.values["site_name"] == "x"
    assert file.findings[0].code is Code.LINK_OUT_OF_TREE


def test_a_link_out_of_the_tree_is_refused_as_parent_and_as_settings(tmp_path):
    inner = tmp_path / "course"
    inner.mkdir()
    (tmp_path / "secret.yml").write_text("site_name: secret\n")
    (inner / "base.yml").symlink_to(tmp_path / "secret.yml")
    assert read(inner, "INHERIT: base.yml\n").findings[0].code is Code.LINK_OUT_OF_TREE
    (inner / "mkdocs.yml").unlink()
    (inner / "mkdocs.yml").symlink_to(tmp_path / "secret.yml")
    linked = read_settings_file(inner / "mkdocs.yml", inner)
    assert not linked.usable
    assert "secret" not in str(linked.values)


def test_inheriting_from_itself_ends(tmp_path):
    file = read(tmp_path, "INHERIT: mkdocs.yml\nsite_name: x\n")
    assert file.values["site_name"] == "x"
    assert file.findings
