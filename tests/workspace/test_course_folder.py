"""Reading a course's folder: what is taken, what is refused, and that it says why."""

import pytest
from fingerpost.diagnostics import Code
from fingerpost.workspace.course_folder import CourseUnreadableError, load


@pytest.fixture
def course(tmp_path):
    root = tmp_path / "course"
    (root / "docs" / "sub").mkdir(parents=True)
    (root / "mkdocs.yml").write_text(
        "site_name: x\nplugins:\n  - fingerpost:\n      capo: 2\n      limits: {span: 100}\n"
    )
    for file in ("index.md", "a.md", "sub/b.md"):
        (root / "docs" / file).write_text(f"# {file}\n")
    return root


def codes(sources):
    return [finding.code for finding in sources.findings]


def test_pages_and_options(course):
    sources = load(course)
    assert [page.file for page in sources.pages] == ["index.md", "a.md", "sub/b.md"]
    assert sources.options == {"capo": 2, "limits": {"span": 100}}
    assert sources.option_places["limits.span"].line == 5
    assert sources.findings == ()


@pytest.mark.parametrize(
    "written", ["plugins: {fingerpost: {capo: 2}}", "markdown_extensions: [{fingerpost: {capo: 2}}]"]
)
def test_options_are_found_in_each_form(course, written):
    (course / "mkdocs.yml").write_text(f"site_name: x\n{written}\n")
    assert load(course).options == {"capo": 2}
    assert load(course).option_places["capo"].line == 2


def test_a_plugin_that_is_not_on_is_a_finding(course):
    (course / "mkdocs.yml").write_text("site_name: x\n")
    assert codes(load(course)) == [Code.BAD_SETTING]


def test_one_page_is_read_with_the_course_around_it(course):
    sources = load(course / "docs" / "sub" / "b.md")
    assert sources.only == "sub/b.md"
    assert len(sources.pages) == 3


def test_a_page_of_no_course_stands_alone(tmp_path):
    page = tmp_path / "alone.md"
    page.write_text("# Alone\n")
    sources = load(page)
    assert (sources.only, [text.file for text in sources.pages], sources.options) == ("alone.md", ["alone.md"], {})


@pytest.mark.parametrize("path", ["missing", "docs", "picture.png"])
def test_what_is_no_course_is_refused_with_a_fix(course, path):
    (course / "picture.png").write_bytes(b"")
    with pytest.raises(CourseUnreadableError) as refusal:
        load(course / path)
    assert refusal.value.message
    assert refusal.value.fix


def test_links_out_of_the_tree_are_named_and_not_followed(course, tmp_path):
    (tmp_path / "secret.md").write_text("# Secret\n")
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "other.md").write_text("# Other\n")
    (course / "docs" / "secret.md").symlink_to(tmp_path / "secret.md")
    (course / "docs" / "far").symlink_to(tmp_path / "outside")
    sources = load(course)
    assert codes(sources) == [Code.LINK_OUT_OF_TREE] * 2
    assert [finding.span.file for finding in sources.findings] == ["far", "secret.md"]
    assert not any("Secret" in page.text or "Other" in page.text for page in sources.pages)


def test_links_inside_the_tree_serve_and_circles_end(course):
    (course / "docs" / "again.md").symlink_to(course / "docs" / "a.md")
    (course / "docs" / "sub" / "up").symlink_to(course / "docs")
    sources = load(course)
    assert "again.md" in [page.file for page in sources.pages]
    assert sources.findings == ()


@pytest.mark.parametrize("docs", ["../elsewhere", "/", "nowhere", "a.txt"])
def test_sources_elsewhere_or_nowhere_are_a_finding(course, docs):
    (course / "a.txt").write_text("")
    (course / "mkdocs.yml").write_text(f"site_name: x\nplugins: [fingerpost]\ndocs_dir: {docs}\n")
    sources = load(course)
    assert sources.pages == ()
    assert len(sources.findings) == 1
    assert sources.findings[0].span.line == 3


def test_bytes_that_are_no_text_are_found_at_their_place_and_the_rest_is_read(course):
    (course / "docs" / "a.md").write_bytes(b"\xef\xbb\xbf# A\r\nna\xc3\xafve \xe9t\xe9\r\nmore\r\n")
    sources = load(course)
    assert codes(sources) == [Code.INVALID_UTF8] * 2
    assert [(finding.span.line, finding.span.column) for finding in sources.findings] == [(2, 7), (2, 9)]
    text = next(page.text for page in sources.pages if page.file == "a.md")
    assert text == "# A\nnaïve \ufffdt\ufffd\nmore\n"


def test_a_page_beyond_all_size_is_not_read(course):
    with (course / "docs" / "a.md").open("wb") as file:
        file.truncate(17_000_000)
    sources = load(course)
    assert codes(sources) == [Code.UNREADABLE_FILE]
    assert "a.md" not in [page.file for page in sources.pages]
