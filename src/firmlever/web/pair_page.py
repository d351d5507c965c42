# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The one page that a phone sees before it is paired; it needs no script."""

from base64 import b64encode
from hashlib import sha256
from html import escape

from firmlever.services.pairing import ALPHABET, CODE_LENGTH, plain_code
from firmlever.web.requests import LONGEST_CODE, LONGEST_NAME

_STYLE = (
    "body{max-width:24rem;margin:2rem auto;padding:0 1rem;font:1.125rem/1.5 system-ui,sans-serif}"
    "input,button{display:block;box-sizing:border-box;width:100%;min-height:3rem;"
    "margin:.25rem 0 1.25rem;padding:.5rem;font:inherit}"
    "[name=code]{letter-spacing:.15em;text-transform:uppercase}"
    "[role=alert]{border:.2rem solid;padding:.5rem}"
)
# lets this one style through a policy that takes none from within a page
STYLE_HASH = f"'sha256-{b64encode(sha256(_STYLE.encode()).digest()).decode()}'"

_PAGE = """\
<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Pair this phone - firmlever</title>
<style>{style}</style>
</head>
<body>
<main>
<h1>Pair this phone</h1>
{refusal}<p>The code stands on the computer, under Settings, Phones.
It is good for two minutes and for one phone.</p>
<form method="post" action="/pair">
<label>Code
<input name="code" value="{code}" required maxlength="{longest_code}"
 autocomplete="off" autocapitalize="characters" spellcheck="false">
</label>
<label>A name for this phone
<input name="name" value="{name}" required maxlength="{longest}" autocomplete="off">
</label>
<button>Pair</button>
</form>
<p>What is sent over this network is not encrypted.
Use your own network, not a shared or open one.</p>
</main>
</body>
</html>
"""


def pair_page(code: str = "", name: str = "", refusal: str = "") -> str:
    """Return the page, with what was typed and why it was refused."""
    plain = plain_code(code)
    is_likely = len(plain) == CODE_LENGTH and set(plain) <= set(ALPHABET)
    return _PAGE.format(
        style=_STYLE,
        code=plain if is_likely else "",
        name=escape(name[:LONGEST_NAME]),
        longest=LONGEST_NAME,
        longest_code=LONGEST_CODE,
        refusal=f'<p role="alert">{escape(refusal)}</p>\n' if refusal else "",
    )
