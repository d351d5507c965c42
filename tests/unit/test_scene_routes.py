# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""What the search for the run of a line gives up last, and what first."""

from firmlever.domain.scene import Point, SceneLine, Shape
from firmlever.report.scene_boxes import Rect
from firmlever.report.scene_grid import Ground
from firmlever.report.scene_ports import ports
from firmlever.report.scene_routes import Run, crosses_itself
from unit import scene_bench as bench

LEFT, RIGHT = Rect(60.0, 180.0, 100.0, 220.0), Rect(260.0, 180.0, 300.0, 220.0)
WALL = Rect(150.0, 150.0, 200.0, 250.0)
SIZE = (360.0, 400.0)


def run(
    *heights: float, boxes: tuple[Rect, ...] = (), names: tuple[Rect, ...] = ()
) -> tuple[Point, ...]:
    """The run from the left box to the right one, by way of these heights."""
    ground = Ground([LEFT, RIGHT, *boxes], names)
    ends = [
        tuple(ports(box, Shape.BOX, other, leaving=out, screw_side=0, forks=False))
        for box, other, out in ((LEFT, 280.0, True), (RIGHT, 80.0, False))
    ]
    ys = [200.0, *heights, 200.0]
    return Run(ground, (0, 1), (ends[0], ends[1]), ys, SIZE).points()


def test_with_nothing_in_the_way_it_is_straight() -> None:
    assert run() == ((100.0, 200.0), (260.0, 200.0))


def test_it_passes_over_a_name_rather_than_over_a_hump_that_is_not_there() -> None:
    assert run(names=(WALL,)) == ((100.0, 200.0), (260.0, 200.0))


def test_it_goes_round_a_box_even_so() -> None:
    points = run(boxes=(WALL,))
    assert bench.reversals(points) > 0
    assert bench.on_edge(points[0], LEFT)
    assert bench.on_edge(points[-1], RIGHT)
    line = SceneLine("left > right", points, 10.0)
    assert not [stretch for stretch in bench.stretches(line) if stretch.meets(WALL)]


def test_it_goes_over_a_turning_point_at_its_height_and_wide_enough_to_show() -> None:
    points = run(100.0)
    top = [x for x, y in points if y == 100.0]
    assert min(y for _, y in points) == 100.0
    assert max(top) - min(top) >= 20.0
    assert bench.reversals(points) == 1


def test_it_dips_and_rises_where_two_turning_points_say_so() -> None:
    points = run(300.0, 100.0)
    assert bench.reversals(points) == 2
    assert (min(y for _, y in points), max(y for _, y in points)) == (100.0, 300.0)
    assert not crosses_itself(points)


def test_a_loop_is_seen() -> None:
    loop = ((0.0, 0.0), (50.0, 0.0), (50.0, 30.0), (20.0, 30.0), (20.0, -30.0))
    assert crosses_itself(loop)
    assert not crosses_itself(loop[:4])
