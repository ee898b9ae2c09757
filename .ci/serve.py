"""Serves a built course on this machine only, at the first free port from 8000 on, and says the address."""

import functools
import http.server
import sys


class Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves files without a line for each."""

    def log_message(self, *_: object) -> None:
        """Says nothing: the terminal keeps showing the address."""


def open_server(folder: str) -> http.server.ThreadingHTTPServer:
    """A server for the folder, bound to the first free port."""
    handler = functools.partial(Quiet, directory=folder)
    for port in range(8000, 8100):
        try:
            return http.server.ThreadingHTTPServer(("127.0.0.1", port), handler)
        except OSError:
            continue
    sys.exit("No port from 8000 to 8099 is free: stop another server and try again.")


def main() -> None:
    """Serves until it is stopped."""
    with open_server(sys.argv[1]) as server:
        print(f"The course is at http://127.0.0.1:{server.server_address[1]}/  (Ctrl-C stops it)", flush=True)
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            print("\nStopped.")


if __name__ == "__main__":
    main()
