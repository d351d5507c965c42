# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Reading and writing whole files so that none is ever left half written."""

import contextlib
import os
import stat
import tempfile
from pathlib import Path

from firmlever.errors import FileInTheWayError, NotWrittenError, UnreadableFileError

LARGEST_BYTES = 1_000_000


def read_text(file: str) -> str:
    """Return the text of a small file as it stands, line ends and all.

    Raises
    ------
    UnreadableFileError
        When it is absent, no plain file, over 1 MB, or not UTF-8 text.
    """
    try:
        return _read_bytes(file).decode("utf-8")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        raise UnreadableFileError(
            file, f"line {line} is not UTF-8 text; save it as plain text in UTF-8"
        ) from None
    except FileNotFoundError:
        raise UnreadableFileError(
            file, "there is no such file; check the name and the folder"
        ) from None
    except PermissionError:
        raise UnreadableFileError(file, "it may not be read; check its permissions") from None
    except (OSError, ValueError) as error:
        raise UnreadableFileError(file, f"it cannot be opened ({_reason(error)})") from None


def replace_text(file: str, text: str) -> None:
    """Put a text in the place of a file in one step; until then the old one stands.

    Raises
    ------
    NotWrittenError
        When the disk or a permission stood in the way; the old file is untouched.
    """
    target = Path(file).resolve()
    beside: Path | None = None
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name[:40]}.", dir=target.parent)
        beside = Path(name)
        _write_and_close(handle, text)
        beside.chmod(stat.S_IMODE(target.stat().st_mode))
        beside.replace(target)
    except OSError as error:
        if beside is not None:
            _remove(beside)
        raise NotWrittenError(file, _reason(error)) from None
    _settle(target.parent)


def create_text(file: str, text: str) -> None:
    """Write a file that is not there yet.

    Raises
    ------
    FileInTheWayError
        When something of that name is there.
    NotWrittenError
        When the disk or a permission stood in the way; nothing is left behind.
    """
    target = Path(file)
    try:
        handle = os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    except FileExistsError:
        raise FileInTheWayError(file) from None
    except (OSError, ValueError) as error:
        raise NotWrittenError(file, _reason(error)) from None
    try:
        _write_and_close(handle, text)
    except OSError as error:
        _remove(target)
        raise NotWrittenError(file, _reason(error)) from None
    _settle(target.parent)


def _read_bytes(file: str) -> bytes:
    mode = Path(file).stat().st_mode
    if stat.S_ISDIR(mode):
        raise UnreadableFileError(file, "it is a folder; name a file in it")
    if not stat.S_ISREG(mode):
        raise UnreadableFileError(file, "it is not a plain file")
    with Path(file).open("rb") as stream:
        content = stream.read(LARGEST_BYTES + 1)
    if len(content) > LARGEST_BYTES:
        raise UnreadableFileError(
            file, "it is over 1 MB; a circuit file has a few kilobytes, so this is another file"
        )
    return content


def _write_and_close(handle: int, text: str) -> None:
    with os.fdopen(handle, "wb") as stream:
        stream.write(text.encode("utf-8"))
        stream.flush()
        os.fsync(stream.fileno())


def _settle(folder: Path) -> None:
    """Have the new name survive a power cut, where the system can do that."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _remove(file: Path) -> None:
    with contextlib.suppress(OSError):
        file.unlink()


def _reason(error: OSError | ValueError) -> str:
    if isinstance(error, OSError) and error.strerror:
        return error.strerror.lower()
    return "the name cannot be used"
