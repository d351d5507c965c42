# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Thousands of made-up requests: never a fault of ours, and every answer as described.

Each route gets requests that fit its description and requests that do not, half of them
about a machine that is there.
"""

from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.core.result import Ok
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from web.web_bench import HOME, client, keep_job, steady_workshop

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
]
# a plan takes a third of a second: by far the most of the requests go elsewhere
PLANNING = (
    "/plan",
    "/plans",
    "/questions",
    "/jobs",
    "/lever-test",
    "/lever-tests",
    "/looks",
    "/level",
)
THERE: tuple[dict[str, str], ...] = (
    {"machine_id": "id-2", "circuit_name": "front", "job_id": "job-1"},
    {"machine_id": "id-4", "job_id": "job-1"},
    {},
)
# requests for a route that plans, and for one that does not: 5,000 in a deep run
USUAL, DEEP = (4, 20), (40, 350)


def routes() -> dict[str, Any]:
    """Every route of an app of its own."""
    workshop = steady_workshop()
    keep_job(workshop)
    browser = client(workshop)
    described = schemathesis.openapi.from_dict(browser.get("/openapi.json").json())
    described.app = browser.app
    operations = [found.ok() for found in described.get_all_operations() if isinstance(found, Ok)]
    return {f"{one.method} {one.path}": one for one in operations}


ROUTES = tuple(routes())


def plans(route: str) -> bool:
    return route.startswith(("post", "get")) and route.endswith(PLANNING) and "circuits" in route


def test_a_deep_run_makes_five_thousand_requests() -> None:
    planning = sum(map(plans, ROUTES))
    for counts, least in ((USUAL, 300), (DEEP, 5000)):
        assert planning * counts[0] + (len(ROUTES) - planning) * counts[1] >= least


@pytest.mark.parametrize("route", ROUTES)
def test_no_request_is_answered_with_a_fault_of_ours(
    route: str, pytestconfig: pytest.Config
) -> None:
    operation = routes()[route]
    counts = DEEP if pytestconfig.getoption("--deep") else USUAL
    count = counts[0 if plans(route) else 1]
    names = {parameter.name for parameter in operation.path_parameters}
    strategies = [
        operation.as_strategy(
            generation_mode=mode,
            path_parameters={key: value for key, value in there.items() if key in names} or None,
        )
        for mode in GenerationMode
        for there in THERE
    ]

    @settings(
        max_examples=count,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(st.one_of(strategies))
    def ask(case: Any) -> None:
        case.call_and_validate(base_url=HOME, checks=CHECKS)

    ask()
