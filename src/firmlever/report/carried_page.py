# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A job as one page that opens from a file: it asks nobody for anything."""

import re
from base64 import b64encode
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from html import escape
from unicodedata import normalize

_LONGEST_NAME = 40
_POLICY = (
    "default-src 'none'; script-src {script}; style-src {style}; img-src data:; "
    "connect-src 'none'; base-uri 'none'; form-action 'none'"
)
# what a reader of HTML could take for the end of the element, and what old readers of
# scripts took for the end of a line
_INERT = str.maketrans({"<": r"\u003c", "\u2028": r"\u2028", "\u2029": r"\u2029"})

_PAGE = """\
<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{title} · firmlever</title>
<style>{style}</style>
</head>
<body>
<div id="app"></div>
<noscript><p>This page needs JavaScript. It asks no network for anything.</p></noscript>
<script type="application/json" id="carried-job">{document}</script>
<script>{script}</script>
</body>
</html>
"""


@dataclass(frozen=True, slots=True)
class PageParts:
    """The script and the style sheet that a carried page is built of."""

    script: str
    style: str


def carried_page(parts: PageParts, title: str, document: str) -> str:
    """Return the page.

    Parameters
    ----------
    parts
        What the page is built of; neither may hold the end of its own element.
    title
        What the page is called, with any characters.
    document
        The carried job as JSON text.
    """
    policy = _POLICY.format(script=_hash(parts.script), style=_hash(parts.style))
    return _PAGE.format(
        policy=policy,
        title=escape(title),
        style=parts.style,
        document=document.translate(_INERT),
        script=parts.script,
    )


def carried_name(bike: str, circuit: str, day: date) -> str:
    """Return a name for the file that any disk takes.

    >>> carried_name("Skerry 1100", "front", date(2026, 5, 1))
    'job-skerry-1100-front-2026-05-01.html'
    """
    words = [word for word in (_plain(bike), _plain(circuit)) if word]
    return "-".join(["job", *words, f"{day}.html"])


def _plain(name: str) -> str:
    letters = normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").lower()
    return re.sub("[^a-z0-9]+", "-", letters)[:_LONGEST_NAME].strip("-")


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
