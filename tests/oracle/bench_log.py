# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""A slow, literal reading of a bench log, written apart from the package.

It works on plain documents. Whether an event counts is found by asking, for each one, which
undos reach it; the run is one long list of ifs on one dictionary; arithmetic uses
`statistics` and interpolation by search from the end.
"""

import math
from datetime import datetime, timedelta
from itertools import pairwise
from statistics import NormalDist
from typing import Any

Document = dict[str, Any]
Z = NormalDist().inv_cdf(0.95)
SET = {"stroke": 5, "second": 20}


def counting(events: list[Document]) -> list[Document]:
    """The events that count, in order."""
    log: list[Document] = []
    for event in events:
        if all(event["id"] != other["id"] for other in log):
            log.append(event)

    def counts(event: Document) -> bool:
        return not any(
            undo["kind"] == "undone"
            and undo["target"] == event["id"]
            and undo["id"] > event["id"]
            and counts(undo)
            for undo in log
        )

    kept = [event for event in log if event["kind"] != "undone" and counts(event)]
    return sorted(kept, key=lambda event: str(event["id"]))


class Run:
    """One run, changed in place."""

    def __init__(self, sheet: Document) -> None:
        self.sheet = sheet
        self.seconds = sheet["unit"]["name"] == "second"
        self.started = self.paused = self.suction = False
        self.posture, self.leader = "level", None
        self.at: int | None = None
        self.work: str = sheet["work"]
        self.why: str | None = None
        self.gates: Document = {}
        self.ends: Document = {}
        self.rechecks: Document = {}
        self.refused: list[tuple[str, str]] = []
        self.doubts: list[tuple[str, str]] = []
        self.below: str | None = None
        self.signed: str | None = None
        self.pot: Document | None = None
        self.looks: list[tuple[int, float]] = []
        self.screws: list[Document] = [
            {"n": 0, "cup": None, "sample": 0.0, "marks": [], "look": None, "bubbles": None,
             "begun": False, "shut": False, "done": False, "reason": None}
            for _ in sheet["points"]
        ]  # fmt: skip

    def take(self, event: Document) -> None:
        """Take one counting event."""
        why = self.refusal(event)
        if why:
            self.refused.append((event["id"], why))
        else:
            getattr(self, "on_" + event["kind"], lambda _: None)(event)

    def open_gates(self, before: str) -> list[str]:
        return [
            gate["id"]
            for gate in self.sheet["gates"]
            if gate["before"] == before and self.gates.get(gate["id"], "no") == "no"
        ]

    def asked_here(self, before: str, point: int) -> bool:
        """Whether something asked at this screw has no answer that lets pass."""
        for gate in self.sheet["gates"]:
            if gate["before"] == before and gate["point"] == point:
                answered = self.gates.get(gate["id"], "no")
                if answered == "no":
                    return True
        return False

    def settled(self) -> bool:
        return not [
            one
            for one in self.screws
            if not one["shut"] or (not one["done"] and one["reason"] is None)
        ]

    def phase(self) -> str:
        for end in ("given up", "closed", "first stop done", "ready to roll"):
            if end in self.ends:
                return end
        if not self.started or self.open_gates("opening"):
            return "before opening"
        return "before rolling" if self.settled() else "working"

    def waiting(self) -> bool:
        return [
            one["id"]
            for one in self.sheet["follow_ups"]
            if self.rechecks.get(one["id"]) not in ("firm", "waived")
        ] != []

    def refusal(self, event: Document) -> str:
        kind = event["kind"]
        if not self.started and kind != "started":
            return "not started"
        if event.get("point", 0) >= len(self.screws):
            return "no such screw"
        if "given up" in self.ends and kind not in ("note", "photo", "measured", "signed"):
            return "given up"
        new_work = ("drawn_down", "at_screw", "sample", "set_done", "suction", "shut")
        if self.ends and kind in new_work:
            return "ended"
        if kind == "gate":
            known = [gate for gate in self.sheet["gates"] if gate["id"] == event["gate"]]
            if not known:
                return "no such gate"
            if event["answer"] == "overridden" and event["reason"] is None:
                return "no reason"
            if known[0]["before"] == "rolling" and not self.settled():
                return "screws open"
        if kind in ("set_done", "sample"):
            if self.open_gates("opening"):
                return "gates open"
            if event["point"] != self.at:
                return "not at this screw"
            if self.screws[event["point"]]["shut"]:
                return "screw shut"
            if self.asked_here("screw", event["point"]):
                return "gates open"
        if kind == "shut" and event["is_done"] and self.asked_here("shutting", event["point"]):
            return "gates open"
        if kind == "rechecked":
            if event["follow_up"] not in [one["id"] for one in self.sheet["follow_ups"]]:
                return "no such follow-up"
            if "first stop done" not in self.ends:
                return "first stop not done"
            if event["answer"] == "waived" and event["reason"] is None:
                return "no reason"
        return self.end_refusal(event) if kind == "ended" else ""

    def end_refusal(self, event: Document) -> str:
        end = event["end"]
        if end in self.ends or "closed" in self.ends:
            return "already ended"
        if end == "given up" and event["reason"] is None:
            return "no reason"
        if end == "ready to roll":
            if self.phase() != "before rolling":
                return "screws open"
            if self.open_gates("rolling"):
                return "gates open"
            if self.below:
                return "level low"
        if end == "first stop done" and "ready to roll" not in self.ends:
            return "not ready to roll"
        if end == "closed":
            if "first stop done" not in self.ends:
                return "first stop not done"
            if self.waiting():
                return "follow-ups open"
        return ""

    def on_started(self, event: Document) -> None:
        self.started, self.posture, self.leader = True, event["posture"], event["device"]

    def on_gate(self, event: Document) -> None:
        self.gates[event["gate"]] = event["answer"]

    def share(self, to: float | str) -> float:
        tank = self.sheet["reservoir"]
        usable, line = tank["usable_ml"]["p50"], tank["fill_to_ml"]
        named = {"max": usable, "fill line": usable if line is None else line}
        part: float = float(named.get(str(to), to)) / usable
        return 1.0 - part if self.sheet["direction"] == "up" else part

    def fill(self, share: float) -> None:
        if self.pot and self.pot["look"]:
            self.looks.append(self.pot["look"])
        self.pot = {"s": share, "f": share, "k": 0, "q": 0, "look": None}

    def on_bottle(self, event: Document) -> None:
        if event["fluid"] != self.sheet["fluid"]:
            self.doubts.append(("other fluid", event["id"]))

    def on_drawn_down(self, _: Document) -> None:
        self.below = None
        self.fill(1.0)
        if self.sheet["direction"] == "down":
            self.pot = None

    def on_topped_up(self, event: Document) -> None:
        self.below = None
        self.fill(self.share(event["to"]))

    def on_level_read(self, event: Document) -> None:
        share = self.share(event["above_min_ml"])
        if self.pot is None or self.pot["q"] == 0:
            self.pot = {"s": share, "f": share, "k": 0, "q": 0, "look": None}
        else:
            self.pot["look"] = (self.pot["q"], self.pot["f"] - share)
            self.pot["s"], self.pot["k"] = share, 0

    def on_went_below(self, event: Document) -> None:
        if event["what"] == "port":
            self.below, self.work, self.why = "port", "bleed", "level below the port"
        else:
            self.doubts.append(("below min", event["id"]))
            self.below = self.below or "min"

    def on_at_screw(self, event: Document) -> None:
        one = self.screws[event["point"]]
        if self.seconds and self.at is not None and (self.at != event["point"] or one["shut"]):
            self.looks = []
            if self.pot:
                self.pot = {"s": 0.0, "f": 0.0, "k": 0, "q": 0, "look": None}
        if one["shut"]:
            for gate in self.sheet["gates"]:
                if gate["before"] == "rolling":
                    self.gates.pop(gate["id"], None)
        self.at = event["point"]
        one.update(begun=True, shut=False, done=False, reason=None)

    def on_sample(self, event: Document) -> None:
        self.screws[event["point"]]["sample"] += event["ml"]
        self.screws[event["point"]]["begun"] = True

    def on_set_done(self, event: Document) -> None:
        self.screws[event["point"]]["n"] += event["count"]
        self.screws[event["point"]]["begun"] = True
        if self.pot is None:
            self.doubts.append(("not filled", event["id"]))
        else:
            self.pot["k"] += event["count"]
            self.pot["q"] += event["count"]

    def on_caught(self, event: Document) -> None:
        one = self.screws[event["point"]]
        if one["cup"] and one["cup"][0] > event["ml"] and one["cup"][2] < one["n"]:
            self.doubts.append(("cup fell", event["id"]))
        one["cup"] = (event["ml"], one["sample"], one["n"])

    def on_mark(self, event: Document) -> None:
        one = self.screws[event["point"]]
        one["marks"].append((event["look"], one["n"]))
        if event["look"] == "bubbles":
            one["bubbles"] = one["n"]
        else:
            one["look"] = event["look"]

    def on_shut(self, event: Document) -> None:
        done, reason = event["is_done"], event["reason"]
        self.screws[event["point"]].update(shut=True, done=done, reason=reason)

    def on_suction(self, event: Document) -> None:
        self.suction = event["on"]

    def on_paused(self, _: Document) -> None:
        self.paused = True

    def on_resumed(self, event: Document) -> None:
        self.paused, self.leader = False, event["device"]

    def on_ended(self, event: Document) -> None:
        self.ends[event["end"]] = (event["at"], event["who"])

    def on_rechecked(self, event: Document) -> None:
        self.rechecks[event["follow_up"]] = event["answer"]

    def on_signed(self, event: Document) -> None:
        self.signed = event["name"]

    def caught(self, cup: tuple[float, float, int]) -> tuple[float, float]:
        """What a cup says came out, and how sure that is."""
        rule, (ml, sample, _) = self.sheet["cup"], cup
        into = ml / (1 - rule["beside_share"] / 2)
        # a share anywhere between none and the most has this spread
        spread = into * rule["beside_share"] / 12**0.5
        return into + sample, math.hypot(
            rule["read_error_ml"] + rule["read_error_share"] * ml, spread
        )

    def cups(self, at: int | None) -> list[tuple[float, float, int]]:
        which = range(len(self.screws)) if not self.seconds else [] if at is None else [at]
        found = [self.screws[index]["cup"] for index in which]
        return [cup for cup in found if cup and cup[2]]

    def unit(self, at: int | None) -> tuple[float, float]:
        low, middle, high = (self.sheet["unit"]["ml"][end] for end in ("p05", "p50", "p95"))
        known = [(middle, max((high - low) / (2 * Z), 0.001 * middle))]
        known += [tuple(one / cup[2] for one in self.caught(cup)) for cup in self.cups(at)]  # type: ignore[misc]
        weights = [sd**-2 for _, sd in known]
        mean = sum(value * weight for (value, _), weight in zip(known, weights, strict=True))
        floor = (0.02 if self.seconds else 0.2) * middle
        return max(mean / sum(weights), floor), sum(weights) ** -0.5

    def out(self, at: int, count: int) -> tuple[float, float, float]:
        (mean, sd), cup = self.unit(at), self.screws[at]["cup"]
        if cup and count < cup[2]:
            middle, half = (count / cup[2] * one for one in self.caught(cup))
        else:
            known, error, upto = (*self.caught(cup), cup[2]) if cup else (0.0, 0.0, 0)
            middle = known + (count - upto) * mean
            half = math.hypot(error, (count - upto) * sd)
        return max(0.0, middle - Z * half), max(0.0, middle), max(0.0, middle + Z * half)

    def total(self, at: int) -> tuple[int, int, int]:
        one, (mean, sd) = self.screws[at], self.unit(at)
        known, upto = (self.caught(one["cup"])[0], one["cup"][2]) if one["cup"] else (0.0, 0)
        volume = self.sheet["points"][at]["volume_ml"]
        low, half, high = volume["p05"], volume["p50"], volume["p95"]
        if half == 0:
            return upto, upto, upto
        middle, part = upto + max(0.0, half - known) / mean, Z * sd / mean
        fewer = math.hypot(math.log(half / max(low, half / 20)), math.log1p(part))
        more = math.hypot(math.log(high / half), math.log(max(0.2, 1 - part)))
        fewest, most = (middle * math.exp(side * 1.85 / Z) for side in (-fewer, more))
        return (
            max(upto, math.floor(fewest)),
            max(upto, math.ceil(middle)),
            max(upto, math.ceil(most)),
        )

    def new_share(self, at: int) -> tuple[float, ...]:
        curve = self.sheet["points"][at]["washout"]
        found = []
        for end, ml in zip(("p05", "p50", "p95"), self.out(at, self.screws[at]["n"]), strict=True):
            share = curve["new_share"][0][end]
            pairs = zip(curve["volume_ml"], curve["new_share"], strict=True)
            for (x0, y0), (x1, y1) in pairwise(pairs):
                if ml >= x0:
                    part = min(1.0, (ml - x0) / (x1 - x0))
                    share = y0[end] + part * (y1[end] - y0[end])
            found.append(share)
        return tuple(found)

    def named(self, at: int, count: int) -> list[str]:
        """Who is nearest to the height of their own darkness."""
        strip, out = self.sheet["points"][at]["strip"], self.out(at, count)
        size, rows = strip["slice_ml"], strip["shares"]
        # every slice that the band touches, the last one standing for all beyond it
        here = [
            row
            for index, row in enumerate(rows)
            if (index + 1) * size > out[0] and index * size < out[2]
        ] or [rows[min(int(out[0] // size), len(rows) - 1)]]
        mean = {
            name: sum(row[column] for row in here) / len(here)
            for column, name in enumerate(strip["origins"])
        }
        height = {
            name: max(row[column] for row in rows) for column, name in enumerate(strip["origins"])
        }
        score = {
            name: mean[name] ** 1.5 / height[name]
            for name in strip["origins"]
            if name != "new" and height[name] >= 0.1
        }
        if sum(share for name, share in mean.items() if name != "new") < 0.02 or not score:
            return ["new"]
        first = max(score, key=lambda name: score[name])
        rest = {name: one for name, one in score.items() if name != first}
        second = max(rest, key=lambda name: rest[name], default=None)
        return [first] if second is None or rest[second] < 0.5 * score[first] else [first, second]

    def lasting(self) -> tuple[float, float]:
        """Counts that a filling lasts: the logarithm's mean and spread."""
        tank, (mean, sd) = self.sheet["reservoir"], self.unit(self.at)
        usable = tank["usable_ml"]
        tilt = tank["tilt_ml"] if self.posture == "side stand" else 0.0
        middle = max(usable["p50"] - tilt, 0.1 * usable["p50"])
        low = max(usable["p05"] - tilt, 0.1 * middle)
        of_pot = -math.log(max(0.05, 1 - 3.8 * (1 - low / middle) / Z)) / 3.8
        of_unit = sd / mean
        if not self.cups(self.at):
            unit = self.sheet["unit"]["ml"]
            of_unit = max(of_unit, math.log(unit["p95"] / unit["p50"]) / Z)
        known = [(math.log(middle / mean), math.hypot(of_pot, of_unit, 0.35 if tilt else 0.0))]
        looks = self.looks + ([self.pot["look"]] if self.pot and self.pot["look"] else [])
        drop = sum(look[1] for look in looks)
        if drop > 0:
            error = tank["read_error_ml"] / Z / usable["p50"]
            learned = math.log(sum(look[0] for look in looks) / drop)
            known.append((learned, math.sqrt(2 * len(looks)) * error / drop))
        weight = sum(spread**-2 for _, spread in known)
        log = sum(value * spread**-2 for value, spread in known) / weight
        return log, math.hypot(weight**-0.5, 0.05)

    def safe(self) -> float:
        """Counts since the last look or filling that can be vouched for."""
        tank = self.sheet["reservoir"]
        if self.pot is None or self.pot["s"] <= 0:
            return 0.0
        log, spread = self.lasting()
        look = tank["read_error_ml"] / Z / tank["usable_ml"]["p50"] / self.pot["s"]
        worst: float = self.pot["s"] * math.exp(log - 3.8 * math.hypot(spread, look))
        return worst

    def call(self) -> tuple[str, int, int]:
        if self.below:
            return ("below min" if self.below == "min" else "port"), 0, 0
        if self.pot is None:
            return "not filled", 0, 0
        one_set, least = SET[self.sheet["unit"]["name"]], 2 if self.seconds else 1
        left = max(0, math.floor(self.safe() - self.pot["k"] - (1 if self.seconds else 0)))
        if left >= least:
            return ("fine" if left >= 2 * one_set else "soon"), left, min(one_set, left)
        if self.pot["s"] > 0 and self.pot["q"] == self.pot["k"] == 0:
            return "watch", left, least
        return "now", left, 0

    def still_open(self) -> list[str]:
        codes = [
            ("gates", self.open_gates("opening") + self.open_gates("rolling")),
            ("screws", not self.settled()),
            ("level", self.below),
            ("first stop", "first stop done" not in self.ends),
            ("follow-ups", self.waiting()),
            ("not signed", self.signed is None),
        ]
        return [code for code, holds in codes if holds]

    def due(self) -> list[str | None]:
        if "first stop done" not in self.ends:
            return [None for _ in self.sheet["follow_ups"]]
        first = datetime.strptime(self.ends["first stop done"][0], "%Y-%m-%dT%H:%M:%S.%f%z")
        due = [first + timedelta(hours=one["after_hours"]) for one in self.sheet["follow_ups"]]
        return [one.isoformat(timespec="milliseconds").replace("+00:00", "Z") for one in due]


def run(sheet: Document, events: list[Document]) -> Run:
    """Read a whole log."""
    one = Run(sheet)
    for event in counting(events):
        one.take(event)
    return one
