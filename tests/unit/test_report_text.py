# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
from dataclasses import replace

import pytest

from firmlever.domain.cautions import FIRST_AUTHORITY
from firmlever.domain.fill import FillPlan, FillStep, ReverseFill
from firmlever.domain.plan import FlushPlan, LeftOld, OrderNote
from firmlever.domain.quantity import Band, CountBand
from firmlever.domain.tables import Work
from firmlever.report.demo_text import demo_end, demo_page
from firmlever.report.description_text import check_page, new_page
from firmlever.report.layout import COLUMNS, Page, Role
from firmlever.report.text import plan_page
from firmlever.report.words import WordSet
from snapshot import same_as_kept
from unit import plan_example


def text_of(page: Page) -> str:
    return "".join(f"{line.text}\n" for line in page)


def flat(page: Page) -> str:
    return " ".join(text_of(page).split())


def page_of(plan: FlushPlan, file: str = "skerry.toml") -> Page:
    return plan_page(plan, plan_example.front(), file, {})


def test_the_whole_page_of_a_plan() -> None:
    plan = plan_example.plan(findings=("the fluid in it is older than four years",))
    same_as_kept("plan.txt", text_of(page_of(plan)))


def test_the_whole_page_in_american_words() -> None:
    page = plan_page(plan_example.plan(), plan_example.front(), "skerry.toml", {}, WordSet.US)
    text = text_of(page)
    same_as_kept("plan-us.txt", text)
    for british in ("spanner", "nipple", "tyre", "disc ", "hose"):
        assert british not in text.replace("hose-sizes", "").lower()


def fill_example() -> FillPlan:
    """An invented fill; no number here was worked out."""
    steps = (
        FillStep(
            "fill pot", "pot", "Fill it.", "It stands still.", "Stop.", Band(29, 30, 31), None
        ),
        FillStep(
            "screw left caliper",
            "left caliper",
            "Open the bleed nipple with a ring spanner.",
            "Air, then fluid.",
            "If no fluid has come after 40 strokes, stop: suspect a blocked hose.",
            Band(14, 15, 17),
            CountBand(9, 14, 20),
        ),
    )
    reverse = (
        ReverseFill("left caliper", Band(30, 33, 36), 21.37, True, ""),
        ReverseFill("right caliper", Band(30, 33, 36), 21.37, False, "it drives dirt up"),
    )
    return FillPlan(Band(90, 95, 101), steps, reverse, ("Clamp it.", "Push slowly."))


def test_the_whole_page_of_a_fill() -> None:
    plan = replace(
        plan_example.plan(), work=Work.FILL, fill=fill_example(), beyond=("If it is rusty: stop.",)
    )
    same_as_kept("plan-fill.txt", text_of(page_of(plan)))
    american = plan_page(plan, plan_example.front(), "skerry.toml", {}, WordSet.US)
    assert "Open the bleeder screw with a box-end wrench." in " ".join(text_of(american).split())


def test_every_line_fits_the_page() -> None:
    for page in (page_of(plan_example.plan()), demo_end()):
        assert [line.text for line in page if len(line.text) > COLUMNS] == []


def headline(plan: FlushPlan) -> str:
    return " ".join(line.text for line in page_of(plan) if line.role is Role.HEADLINE)


def test_the_headline_names_the_part_that_holds_most() -> None:
    assert headline(plan_example.plan()) == (
        "9 % (5–17) stays old, most of it in the ABS unit; riding evens the calipers out to "
        "4 % (2–8)."
    )


@pytest.mark.parametrize(
    ("old", "where"),
    [
        ({"abs unit": 3, "left caliper": 3, "right caliper": 2}, "much of it in the ABS unit"),
        ({"left caliper": 3, "abs unit": 1}, "most of it in the left caliper"),
        ({"master > abs unit": 3}, "most of it in the line master > abs unit"),
    ],
)  # fmt: skip
def test_a_part_is_called_by_kind_or_by_its_name(old: dict[str, float], where: str) -> None:
    plan = plan_example.plan()
    old_ml = {name: Band(0, ml, 9) for name, ml in old.items()}
    left = LeftOld(plan.left_old.whole, plan.left_old.after_mixing, {}, old_ml, {})
    assert f"stays old, {where};" in headline(replace(plan, left_old=left))


def test_nothing_old_names_no_part() -> None:
    plan = plan_example.plan()
    none = Band(0, 0, 0)
    left = LeftOld(none, none, {"abs unit": none}, {"abs unit": none}, {})
    assert headline(replace(plan, left_old=left)) == (
        "0 % stays old; riding evens the calipers out to 0 %."
    )


def test_a_bleed_and_a_fill_have_their_own_sentence() -> None:
    bleed = replace(plan_example.plan(), work=Work.BLEED)
    fill = replace(plan_example.plan(), work=Work.FILL)
    assert headline(bleed) == (
        "113–145 ml go through to bring the air out; 9 % (5–17) stays old, most of it in the "
        "ABS unit."
    )
    assert headline(fill) == "113–145 ml go through to fill it."


def test_the_guard_counts_strokes_only_where_there_are_any() -> None:
    plan = plan_example.plan()
    assert "top up after 12 strokes (20 ml), on the side stand after 11 ml" in flat(page_of(plan))
    without = replace(plan, reservoir=replace(plan.reservoir, strokes_to_min=None))
    assert "top up after 20 ml, on the side stand" in flat(page_of(without))
    one = replace(plan, reservoir=replace(plan.reservoir, strokes_to_min=CountBand(1, 1, 2)))
    assert "top up after 1 stroke (20 ml)" in flat(page_of(one))


@pytest.mark.parametrize(
    ("difference_ml", "either", "words"),
    [
        (3.2, True, "the master first; either order would do, they differ by 3.2 ml"),
        (-3.2, True, "the master first; either order would do, they differ by 3.2 ml"),
        (14.06, False, "the master first; the other way round takes 14.1 ml more"),
        (-14.06, False, "the master first; the other way round takes 14.1 ml less"),
        (0.0, False, "the master first"),
    ],
)
def test_the_other_order_is_priced(difference_ml: float, either: bool, words: str) -> None:
    order = OrderNote("the master first", difference_ml, either)
    page = flat(page_of(replace(plan_example.plan(), order=order)))
    assert f"Order: {words} Each time" in page


def test_pistons_home_says_what_it_saves_or_that_it_is_reckoned_with() -> None:
    text = flat(page_of(plan_example.plan()))
    assert "- left caliper: saves 18–31 ml and leaves 1–5 points less old fluid " in text
    assert (
        "- right caliper: saves 14–25 ml and leaves 1.0–4.0 points less old fluid; already " in text
    )
    assert text.count("Clean the pistons, open the screw, push them home.") == 1


@pytest.mark.parametrize(
    ("name", "words"),
    [("front", "riding evens the calipers out"), ("rear", "riding evens the caliper out")],
)
def test_the_wheel_end_is_named(name: str, words: str) -> None:
    circuit = plan_example.bike().circuit(name)
    page = plan_page(plan_example.plan(name), circuit, "skerry.toml", {})
    assert words in flat(page)


def test_a_command_is_offered_only_for_what_the_file_can_hold() -> None:
    with_file = text_of(page_of(plan_example.plan(), "my bike.toml"))
    assert (
        '\n         firmlever set "my bike.toml" "front/abs unit/unswept_ml=VALUE"\n' in with_file
    )
    assert with_file.count("firmlever set") == 1


@pytest.mark.parametrize("cautions", [(), ("Mind the paint.",)])
def test_who_comes_first_is_always_the_last_word(cautions: tuple[str, ...]) -> None:
    page = page_of(replace(plan_example.plan(), cautions=cautions))
    assert flat(page).endswith(FIRST_AUTHORITY)
    assert flat(page).count(FIRST_AUTHORITY) == 1
    assert flat(demo_end()).endswith(FIRST_AUTHORITY)


def test_findings_stand_before_the_steps() -> None:
    text = flat(page_of(plan_example.plan(findings=("First.", "Second."))))
    assert "Needs attention ! First. ! Second." in text
    assert text.index("Needs attention") < text.index("spanner")
    assert "Needs attention" not in flat(page_of(plan_example.plan()))


def test_empty_chapters_leave_no_heading() -> None:
    bare = replace(
        plan_example.plan(), pistons_home=(), methods=(), narrow=(), assumed=(), sources=()
    )
    text = text_of(page_of(bare))
    for title in ("Pistons home first", "other ways", "Worth measuring", "Assumed", "Sources"):
        assert title not in text


def test_the_demo_says_the_sentence_the_steps_and_what_to_buy() -> None:
    text = text_of(demo_page(plan_example.plan(findings=("Look.",)), plan_example.front()))
    same_as_kept("demo.txt", text + text_of(demo_end()))


def test_the_pages_about_a_file() -> None:
    bike = plan_example.bike()
    pages = text_of(check_page(bike, "skerry.toml")) + text_of(new_page(bike, "skerry.toml"))
    same_as_kept("file.txt", pages)
