# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""From what went wrong to an answer: one table, and one shape for every refusal."""

import re
from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from fastapi import Request
from fastapi.exceptions import RequestValidationError
from pydantic import BaseModel
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse

from firmlever.errors import (
    ChangedMeanwhileError,
    FirmleverError,
    ImpossibleOptionError,
    InputError,
    NoPagesError,
    NoSuchPageError,
    NotFromHereError,
    NotPairedError,
    NotUnderstoodError,
    NotWrittenError,
    OnlyHereError,
    OtherLeverTestError,
    OtherLookError,
    OthersJobError,
    PairingRefusedError,
    Problem,
    TooLargeError,
    TooOftenError,
    UnknownJobError,
    UnknownLeverTestError,
    UnknownLookError,
    UnknownMachineError,
    UnknownNameError,
    UnknownPhoneError,
    UnknownPlanError,
)

OWN_FAULT = 500
# the nearest class above counts
STATUS: dict[type[FirmleverError], int] = {
    UnknownMachineError: 404,
    UnknownPlanError: 404,
    UnknownJobError: 404,
    UnknownLeverTestError: 404,
    UnknownLookError: 404,
    UnknownPhoneError: 404,
    NoSuchPageError: 404,
    NoPagesError: 404,
    ChangedMeanwhileError: 409,
    OtherLeverTestError: 409,
    OthersJobError: 409,
    OtherLookError: 409,
    TooLargeError: 413,
    NotFromHereError: 403,
    NotPairedError: 401,
    PairingRefusedError: 403,
    OnlyHereError: 403,
    TooOftenError: 429,
    NotWrittenError: 507,
    InputError: 422,
    FirmleverError: OWN_FAULT,
}
_LONGEST_SHOWN = 40


class ProblemShown(BaseModel):
    """One fault: where, what was found, what would do. Line 0 is no single line."""

    line: int
    place: str
    found: str
    allowed: str


class Refusal(BaseModel):
    """Why a request brought nothing."""

    error: str
    message: str
    problems: list[ProblemShown]


def refusals(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """Declare which refusals a route may answer with, besides those any may."""
    return {status: {"model": Refusal} for status in (*statuses, 403, 413, 422)}


def answer_to(error: FirmleverError, status: int | None = None) -> JSONResponse:
    """Return the answer that says an error."""
    found = status or next(STATUS[kind] for kind in type(error).__mro__ if kind in STATUS)
    # an option has dashes on the command line only
    message = (
        str(error).removeprefix("--") if isinstance(error, ImpossibleOptionError) else str(error)
    )
    answer = _answer(found, kebab(type(error)), message, getattr(error, "problems", ()))
    if isinstance(error, TooOftenError):
        answer.headers["retry-after"] = str(error.wait_s)
    return answer


def answer_to_own_fault(fault: Exception) -> JSONResponse:
    """Return the answer that owns up to a fault of ours, without its insides."""
    message = (
        f"firmlever met a fault of its own ({type(fault).__name__}); nothing was changed, and "
        "what it was stands where the app was started"
    )
    return _answer(OWN_FAULT, "internal", message, ())


def kebab(error: type[FirmleverError]) -> str:
    """Return the name of an error as answers have it.

    >>> kebab(ChangedMeanwhileError)
    'changed-meanwhile'
    """
    words = re.findall("[A-Z][a-z]*", error.__name__.removesuffix("Error"))
    return "-".join(words).lower()


async def on_refusal(request: Request, error: Exception) -> JSONResponse:
    """Answer one of our own errors; a circuit named in the address leads nowhere."""
    assert isinstance(error, FirmleverError)
    in_address = "circuit_name" in request.path_params
    nowhere = in_address and isinstance(error, UnknownNameError) and error.what == "circuit"
    return answer_to(error, 404 if nowhere else None)


async def on_misfit(_request: Request, error: Exception) -> JSONResponse:
    """Answer a body or a number that does not fit."""
    assert isinstance(error, RequestValidationError)
    return answer_to(NotUnderstoodError([_problem(fault) for fault in error.errors()]))


async def on_no_page(request: Request, error: Exception) -> JSONResponse:
    """Answer what the routes themselves refuse: an address, a method, a broken body."""
    assert isinstance(error, HTTPException)
    if error.status_code == 400:
        unreadable = Problem(0, "the body", "it is not JSON in UTF-8", "JSON in UTF-8")
        return answer_to(NotUnderstoodError([unreadable]))
    answer = answer_to(NoSuchPageError(request.method, request.url.path), error.status_code)
    answer.headers.update(error.headers or {})
    return answer


def _problem(fault: dict[str, Any]) -> Problem:
    steps = [str(step) for step in fault["loc"] if step not in ("body", "query", "path")]
    found = repr(fault.get("input"))
    shown = found if len(found) <= _LONGEST_SHOWN else f"{found[: _LONGEST_SHOWN - 1]}…"
    return Problem(0, ", ".join(steps) or "the body", shown, fault["msg"])


def _answer(status: int, name: str, message: str, problems: Sequence[Problem]) -> JSONResponse:
    body = {
        "error": name,
        "message": _sendable(message),
        "problems": [{**asdict(one), "found": _sendable(one.found)} for one in problems],
    }
    return JSONResponse(body, status)


def _sendable(text: str) -> str:
    """Put a mark in the place of halves of letters, which no answer can carry."""
    return text.encode("utf-8", "replace").decode("utf-8")
