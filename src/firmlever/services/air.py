# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Map the air of one circuit: from a described machine and a posture to resting places."""

from firmlever.domain.air_map import AirMap, AirRequest
from firmlever.domain.cautions import cautions_for
from firmlever.domain.circuit import Bike, Circuit, PartKind
from firmlever.domain.tables import Method, priors_by_key
from firmlever.errors import UnknownNameError
from firmlever.ports import Tables
from firmlever.services.grades import grade_in
from firmlever.services.wishes import check_seed, check_within
from firmlever.solve.air.map import AirCase, map_air

# bounds against slips of the pen, wide judgement
_BARS_DEG = (-45.0, 45.0)
_LEAN_DEG = (-60.0, 60.0)
_LIFT_MM = (-1500.0, 1500.0)


def air_of(bike: Bike, circuit: Circuit, request: AirRequest, tables: Tables) -> AirMap:
    """Find where air can rest in a circuit.

    Raises
    ------
    ImpossibleOptionError, UnknownNameError
        When an angle, a lift or the seed cannot be, or a part is not in the circuit.
    """
    posture = request.posture
    check_within("--bars", posture.bars_deg, _BARS_DEG, "°")
    check_within("--lean", posture.lean_deg, _LEAN_DEG, "°")
    for part_id, lift_mm in posture.lifted_mm.items():
        _check_name("part", part_id, [part.id for part in circuit.parts])
        check_within("--lift", lift_mm, _LIFT_MM, "mm")
    free = [part.id for part in circuit.of_kind(PartKind.CALIPER, PartKind.SLAVE)]
    for part_id in posture.screw_up:
        _check_name("caliper", part_id, free)
    check_seed(request.seed)
    grade, priors = grade_in(circuit, tables.grades()), priors_by_key(tables.priors())
    case = AirCase(bike, circuit, posture, grade, priors, request.on, request.seed)
    has_modulator = bool(circuit.of_kind(PartKind.MODULATOR))
    return map_air(case, cautions_for(Method.LEVER, has_modulator, False, grade.base))


def _check_name(what: str, name: str, known: list[str]) -> None:
    if name not in known:
        raise UnknownNameError(what, name, known)
