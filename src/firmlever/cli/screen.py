# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Where pages go: a terminal with colour, or plain text that pipes and old terminals take."""

import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from threading import Timer
from typing import TextIO

from firmlever.report.layout import Page, Role, in_ascii, printable

_PATIENCE_S = 1.0
_STYLES = {
    Role.TITLE: "bold",
    Role.HEADLINE: "bold",
    Role.HEADING: "underline",
    Role.ATTENTION: "bold red",
    Role.FAINT: "dim",
}


class Screen:
    """Writes pages and documents to ``out``, errors and progress to ``err``."""

    def __init__(
        self,
        out: TextIO | None = None,
        err: TextIO | None = None,
        environ: Mapping[str, str] | None = None,
        patience_s: float = _PATIENCE_S,
    ) -> None:
        self.out = sys.stdout if out is None else out
        self.err = sys.stderr if err is None else err
        self._environ = environ or {}
        self._patience_s = patience_s

    @property
    def traces(self) -> bool:
        """Whether a fault of our own is shown with all its lines."""
        return bool(self._environ.get("FIRMLEVER_TRACE"))

    def page(self, page: Page) -> None:
        """Write a page."""
        if self._coloured():
            self._page_in_colour(page)
        else:
            self.document("".join(f"{self._clean(line.text)}\n" for line in page))

    def document(self, text: str) -> None:
        """Write a text as it is."""
        self.out.write(text)
        self.out.flush()

    def complain(self, text: str) -> None:
        """Write an error."""
        lines = (_in_letters_of(self.err, printable(line)) for line in text.split("\n"))
        self.err.write("\n".join(lines) + "\n")
        self.err.flush()

    @contextmanager
    def waiting(self, what: str) -> Iterator[None]:
        """Say what is being worked out if it takes over a second and somebody looks."""
        if not self.err.isatty():
            yield
            return
        note = _in_letters_of(self.err, printable(f"working out {what}…"))
        timer = Timer(self._patience_s, self._note, [note])
        timer.daemon = True
        timer.start()
        try:
            yield
        finally:
            timer.cancel()
            timer.join()
            self._note(" " * len(note), end="\r")

    def _note(self, note: str, end: str = "") -> None:
        self.err.write(f"\r{note}{end}")
        self.err.flush()

    def _coloured(self) -> bool:
        plain = self._environ.get("NO_COLOR") or self._environ.get("TERM") == "dumb"
        return self.out.isatty() and not plain

    def _clean(self, text: str) -> str:
        return _in_letters_of(self.out, printable(text))

    def _page_in_colour(self, page: Page) -> None:
        from rich.console import Console
        from rich.text import Text

        console = Console(file=self.out, force_terminal=True, highlight=False)
        for line in page:
            text = Text(self._clean(line.text), style=_STYLES.get(line.role, ""))
            console.print(text, soft_wrap=True)


def _in_letters_of(stream: TextIO, text: str) -> str:
    """Keep to the letters a stream can show."""
    encoding = (stream.encoding or "utf-8").lower().replace("-", "").replace("_", "")
    if encoding == "utf8":
        return text.encode("utf-8", "replace").decode("utf-8")
    return in_ascii(text)
