"""A host of a course that can be changed, cut and taken away while a student's browser is at it."""

from __future__ import annotations

import http.server
import threading
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from .looking import Quiet


@dataclass
class Host:
    """What is served where: folders by their place on the host, "" or "north/". asked counts by path."""

    folders: dict[str, Path]
    address: str = ""
    down: bool = False
    refuses: Callable[[str], bool] = lambda path: False
    asked: Counter[str] = field(default_factory=Counter)

    def file(self, path: str) -> Path | None:
        """The file at a path of the host."""
        for place in sorted(self.folders, key=len, reverse=True):
            if path.startswith(place):
                found = self.folders[place] / path[len(place) :]
                return found / "index.html" if found.is_dir() else found
        return None


@contextmanager
def hosted(folders: dict[str, Path]) -> Iterator[Host]:
    """Serves folders until the end; `down` and `refuses` hold from the next request on."""
    host = Host(folders)

    class Handler(Quiet):
        def translate_path(self, path: str) -> str:
            return str(host.file(path.split("?")[0].lstrip("/")))

        def do_GET(self) -> None:  # noqa: N802
            path = self.path.split("?")[0].lstrip("/")
            host.asked[path] += 1
            if host.down or host.refuses(path):
                self.close_connection = True
                return
            file = host.file(path)
            if file is None or not file.is_file():
                self.send_response(404)
                self.send_header("Content-Length", "0")
                self.end_headers()
                return
            # A page that is left breaks off what it was fetching.
            with suppress(ConnectionError):
                super().do_GET()

        def end_headers(self) -> None:
            # As hosts of static files mostly say: keep it for ten minutes.
            self.send_header("Cache-Control", "max-age=600")
            super().end_headers()

    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        host.address = f"http://127.0.0.1:{server.server_address[1]}/"
        try:
            yield host
        finally:
            server.shutdown()
