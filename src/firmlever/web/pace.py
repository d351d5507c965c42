# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""How often one address may ask: so many at once, and so many a second after that."""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from math import ceil

from firmlever.errors import TooOftenError

_MOST_ADDRESSES = 1000


@dataclass(frozen=True, slots=True)
class _Left:
    count: float
    at_s: float


class Pace:
    """Counts the requests of each address.

    Parameters
    ----------
    at_once
        How many may come in one go.
    each_s
        How many of those are given back each second.
    now_s
        A clock that never goes back.
    """

    def __init__(self, at_once: float, each_s: float, now_s: Callable[[], float]) -> None:
        self._at_once = at_once
        self._each_s = each_s
        self._now_s = now_s
        self._left: OrderedDict[str, _Left] = OrderedDict()

    def count(self, address: str) -> None:
        """Count one request.

        Raises
        ------
        TooOftenError
            When it comes too soon after the others of this address.
        """
        now_s = self._now_s()
        before = self._left.pop(address, _Left(self._at_once, now_s))
        gained = (now_s - before.at_s) * self._each_s
        count = min(self._at_once, before.count + gained)
        self._left[address] = _Left(count - 1 if count >= 1 else count, now_s)
        if len(self._left) > _MOST_ADDRESSES:
            self._left.popitem(last=False)
        if count < 1:
            raise TooOftenError(ceil((1 - count) / self._each_s))
