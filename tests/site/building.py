"""Small courses written to disk and built by MkDocs in this process, with what it logged."""

from __future__ import annotations

import logging
from dataclasses import dataclass, field
from pathlib import Path

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort

SETTINGS = """\
site_name: Lock Six
use_directory_urls: true
theme: {name: THEME}
plugins:
  - search
  - fingerpost
"""
INDEX = "# Lock Six\n\nBegin with [the first](first.md).\n"
FIRST = """\
# The first

Words before.

```moves
id: gates
title: From A minor to C
start: 2 D2, 3 G2, 1 B1, strum A-e = Am
teaches: [Am, C, Cmaj7]
steps:
- move: 3 to A3 = C
  say: Only the ring finger crosses over.
- 1 off = Cmaj7
```

Words after, with `chord: C`.
"""
SECOND = """\
# The second

```moves
id: again
title: Back to A minor
start: as taught Am
teaches: [Asus2]
steps:
- 1 off = Asus2
- 1 to B1 = Am
```

You know `step: gates C` from [the first](first.md#gates).
"""


@dataclass
class Logged(logging.Handler):
    """What MkDocs said, by weight."""

    records: list[logging.LogRecord] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()

    def __hash__(self) -> int:
        return id(self)

    def emit(self, record: logging.LogRecord) -> None:
        self.records.append(record)

    def said(self, level: int = logging.WARNING) -> list[str]:
        return [record.getMessage() for record in self.records if record.levelno >= level]


@dataclass
class Course:
    """A course in a folder."""

    folder: Path
    theme: str = "fingerpost"
    logged: Logged = field(default_factory=Logged)
    config: MkDocsConfig | None = None

    def write(self, files: dict[str, str | bytes], settings: str = SETTINGS) -> Course:
        (self.folder / "mkdocs.yml").write_text(settings.replace("THEME", self.theme))
        for name, text in files.items():
            path = self.folder / "docs" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return self

    def build(self, strict: bool = False, site: str = "site") -> Course:
        """Builds; raises what MkDocs raises."""
        self.logged = Logged()
        logger = logging.getLogger("mkdocs")
        logger.addHandler(self.logged)
        logger.setLevel(logging.INFO)
        try:
            self.config = load_config(str(self.folder / "mkdocs.yml"), strict=strict, site_dir=str(self.folder / site))
            self.config.plugins.on_startup(command="build", dirty=False)
            mkdocs_build(self.config)
        finally:
            logger.removeHandler(self.logged)
        return self

    def fails(self, strict: bool = True) -> str:
        """Builds, expecting MkDocs to give up; what it said last."""
        try:
            self.build(strict)
        except Abort as end:
            return str(end)
        raise AssertionError("the build did not fail")

    def page(self, path: str, site: str = "site") -> str:
        return (self.folder / site / path).read_text(encoding="utf-8")

    def bytes(self, site: str = "site") -> dict[str, bytes]:
        root = self.folder / site
        return {
            path.relative_to(root).as_posix(): path.read_bytes() for path in sorted(root.rglob("*")) if path.is_file()
        }


PAGES: dict[str, str | bytes] = {"index.md": INDEX, "first.md": FIRST, "second.md": SECOND}
