# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
import pytest

from firmlever.domain.circuit import Bike, BikeClass
from firmlever.domain.known import Known, known_of
from firmlever.domain.tables import Basis, Prior
from firmlever.errors import ImpossibleOptionError
from firmlever.services.describing import pick_circuit, usual_heights
from unit import plan_example
from unit.cli_bench import FakeTables, only


def height(kind: str, family: str, classes: tuple[str, ...], middle: float) -> Prior:
    low, high = middle - 10, middle + 10
    return Prior(
        kind, "height_mm", family, classes, "mm", low, high, Basis.JUDGEMENT, "judgement", ""
    )


class Heights(FakeTables):
    """Rows for one kind of part, the most special first."""

    def priors(self) -> tuple[Prior, ...]:
        return (
            height("caliper", "rear", ("scooter",), 100),
            height("caliper", "rear", ("tourer",), 200),
            height("caliper", "rear", (), 300),
            height("caliper", "any", (), 400),
            height("modulator", "any", (), 600),
        )


def test_what_is_known_is_counted() -> None:
    # derived: counted by hand from the example and the table of quantities
    known = known_of(plan_example.front())
    assert known == Known(exact=12, ranges=1, left_out=39)
    assert (known.given, known.total) == (13, 52)


@pytest.mark.parametrize(
    ("bike_class", "middle"),
    [(BikeClass.TOURER, 200), (BikeClass.SCOOTER, 100), (BikeClass.SPORT, 300)],
)
def test_the_most_special_height_is_the_usual_one(bike_class: BikeClass, middle: float) -> None:
    rear = plan_example.rear()
    bike = Bike("Any", bike_class, (rear,))
    assert usual_heights(bike, rear, Heights()) == {"rear caliper": middle}


def test_any_family_stands_in_for_one_without_rows() -> None:
    front = plan_example.front()
    assert usual_heights(plan_example.bike(), front, Heights()) == {
        "abs unit": 600,
        "left caliper": 400,
        "right caliper": 400,
    }


def test_the_only_circuit_needs_no_name() -> None:
    rear = plan_example.rear()
    assert pick_circuit(only(rear), None) is rear
    assert pick_circuit(plan_example.bike(), "rear") == rear
    with pytest.raises(ImpossibleOptionError):
        pick_circuit(plan_example.bike(), None)
