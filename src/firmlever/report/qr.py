# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A text as the square code that a phone's camera reads."""

from io import BytesIO


def qr_svg(text: str) -> str:
    """Return a picture of the code: black on white on any screen, in the size it is given.

    >>> qr_svg("http://192.168.7.5:8017/pair").startswith("<svg xmlns=")
    True
    """
    import segno

    out = BytesIO()
    segno.make_qr(text, error="m").save(
        out, kind="svg", xmldecl=False, omitsize=True, dark="#000", light="#fff", nl=False
    )
    return out.getvalue().decode("utf-8")
