# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Flow through hoses, drillings, ports and forks, and what drives it.

Reference fluid: 1050 kg/m3 and 18 mPa s unless a row says otherwise.
"""

import math
import warnings
from pathlib import Path
from tempfile import TemporaryDirectory

from firmlever.physics.branches import branched_flows_m3_s, linear_parallel, parallel_drop_pa
from firmlever.physics.drive import (
    atmosphere_pa,
    gravity_drive_pa,
    pressure_drive_pa,
    reverse_drive_pa,
    vacuum_drive_pa,
)
from firmlever.physics.flow import (
    ENTRY_AND_EXIT_LOSS,
    Loss,
    beyond_laminar,
    drop_pa,
    flow_m3_s,
    flow_past_lip_m3_s,
    in_series,
    laminar_resistance_pa_s_m3,
    passage_loss,
    reynolds_number,
    square_loss_pa_s2_m6,
)
from firmlever.physics.numeric import Numeric
from firmlever.physics.orifice import discharge_drop_pa, orifice_flow_m3_s, short_tube_discharge
from reference.cases import Case, Kind

RHO, MU = 1050.0, 0.018
ML = 1e-6
HALF_METRE_PA = RHO * 9.80665 * 0.5


def hose_chain(viscosity_pa_s: float) -> Loss:
    """1.2 m of 3.2 mm hose, a 1.5 x 8 mm drilling, 0.5 m of 4 mm tube; 1.5 heads each."""
    bores = ((1.2, 3.2e-3), (8e-3, 1.5e-3), (0.5, 4e-3))
    return in_series(*(passage_loss(viscosity_pa_s, RHO, long, wide, 1.5) for long, wide in bores))


def port() -> Loss:
    """A compensating port of 0.6 x 1.5 mm."""
    return passage_loss(MU, RHO, 1.5e-3, 0.6e-3, 1.5)


def chain_flow_m3_s(viscosity_pa_s: float, drive_pa: float) -> Numeric:
    """Flow through the hose chain alone."""
    return flow_m3_s(drive_pa, hose_chain(viscosity_pa_s))


def drilling_drop_pa(flow_m3_s: float) -> Numeric:
    """Pressure over a 1.5 x 8 mm drilling by its discharge coefficient."""
    reynolds = reynolds_number(flow_m3_s, 1.5e-3, MU / RHO)
    discharge = short_tube_discharge(8e-3, 1.5e-3, reynolds)
    return discharge_drop_pa(flow_m3_s, 1.5e-3, RHO, discharge)


def _darcy_drop_pa() -> float:
    from fluids.friction import friction_factor

    speed_m_s = 1 * ML / (math.pi / 4 * 3.2e-3**2)
    reynolds = speed_m_s * 3.2e-3 * RHO / MU
    return float(friction_factor(Re=reynolds)) * 1.2 / 3.2e-3 * RHO / 2 * speed_m_s**2


def _end_loss_pa_s2_m6() -> float:
    from fluids.core import dP_from_K
    from fluids.fittings import exit_normal

    speed_m_s = 1 * ML / (math.pi / 4 * 1.5e-3**2)
    return float(dP_from_K(exit_normal(), RHO, speed_m_s)) / ML**2


def _reynolds() -> float:
    from fluids.core import Reynolds

    return float(Reynolds(V=1 * ML / (math.pi / 4 * 3.2e-3**2), D=3.2e-3, rho=RHO, mu=MU))


def _standard_atmosphere_pa() -> float:
    from fluids.atmosphere import ATMOSPHERE_1976

    return float(ATMOSPHERE_1976(2000.0).P)


# trunk, left leg, right leg behind a fork: length and bore; 1.5 velocity heads each
_NETWORK = {"trunk": (0.95, 3.2e-3), "left": (0.6, 3.2e-3), "right": (0.9, 2.5e-3)}
_NETWORK_FALL_M = 0.7
_EPANET_GRAVITY_M_S2 = 32.2 * 0.3048
_EPANET_VISCOSITY_M2_S = 1.0219e-6


def _epanet_flows_m3_s() -> tuple[float, float]:
    """The flows in the two legs, by the network solver at true brake size."""
    from wntr.network import WaterNetworkModel
    from wntr.sim import EpanetSimulator

    net = WaterNetworkModel()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # "does not change the roughness unit"
        net.options.hydraulic.headloss = "D-W"
    net.options.hydraulic.inpfile_units = "LPS"
    net.options.hydraulic.accuracy = 1e-6
    net.options.hydraulic.viscosity = MU / RHO / _EPANET_VISCOSITY_M2_S
    net.options.hydraulic.specific_gravity = RHO / 1000
    net.options.time.duration = 0
    net.add_reservoir("pot", base_head=0.3 + _NETWORK_FALL_M)
    net.add_junction("fork", elevation=0.0)
    ends = {"trunk": ("pot", "fork"), "left": ("fork", "left"), "right": ("fork", "right")}
    for leg in ("left", "right"):
        net.add_reservoir(leg, base_head=0.3)
    for name, (length_m, bore_m) in _NETWORK.items():
        net.add_pipe(
            name, *ends[name], length_m, bore_m, roughness=1e-12, minor_loss=ENTRY_AND_EXIT_LOSS
        )
    with TemporaryDirectory() as folder:
        run = EpanetSimulator(net).run_sim(file_prefix=str(Path(folder) / "net"))
    flows = run.link["flowrate"].iloc[0]
    return float(flows["left"]), float(flows["right"])


def _resistance(bore_mm: float, length_mm: float, per_ml_s_pa: float, off: float) -> Case:
    return Case(
        laminar_resistance_pa_s_m3,
        {"viscosity_pa_s": MU, "length_m": length_mm / 1e3, "bore_m": bore_mm / 1e3},
        per_ml_s_pa / ML,
        Kind.DERIVED,
        "hagen-poiseuille",
        "the law, worked out by hand",
        abs=off / ML,
    )


_RESISTANCES = (
    Case(
        laminar_resistance_pa_s_m3,
        {"viscosity_pa_s": MU, "length_m": 1.2, "bore_m": 3.2e-3},
        lambda: _darcy_drop_pa() / ML,
        Kind.INDEPENDENT,
        "lib-fluids",
        "friction_factor, laminar branch",
        rel=1e-12,
    ),
    _resistance(3.2, 1200, 8392.9365, 5e-5),
    _resistance(2.5, 300, 5632, 0.5),
    _resistance(1.5, 8, 1158.9, 0.05),
    _resistance(1.2, 8, 2829, 0.5),
    _resistance(2.0, 10, 458, 0.5),
    _resistance(0.6, 1.5, 8488, 0.5),
)

# drive in Pa, then ml/s at 18, 50, 300, 3 mPa s; the last digit printed is the tolerance
_CHAIN_MU = (18e-3, 50e-3, 300e-3, 3e-3)
_CHAIN_FLOWS = (
    (HALF_METRE_PA, (0.463, 0.168, 0.028, 2.14), (1e-3, 1e-3, 1e-3, 1e-2)),
    (RHO * 9.80665 * 0.8, (0.737, 0.269, 0.045, 3.09), (1e-3, 1e-3, 1e-3, 1e-2)),
    (60e3, (4.88, 1.93, 0.328, 11.9), (1e-2, 1e-2, 1e-3, 0.1)),
    (85e3, (6.65, 2.72, 0.464, 14.7), (1e-2, 1e-2, 1e-3, 0.1)),
    (100e3, (7.66, 3.19, 0.546, 16.2), (1e-2, 1e-2, 1e-3, 0.1)),
    (200e3, (13.6, 6.21, 1.09, 24.1), (0.1, 1e-2, 1e-2, 0.1)),
    (1e6, (43.9, 26.6, 5.42, 57.6), (0.1, 0.1, 1e-2, 0.1)),
)
_CHAIN = tuple(
    Case(
        chain_flow_m3_s,
        {"viscosity_pa_s": viscosity, "drive_pa": drive_pa},
        flow * ML,
        Kind.DERIVED,
        "derived",
        "hose chain by method, from the two laws by hand",
        abs=digit / 2 * ML,
    )
    for drive_pa, flows, digits in _CHAIN_FLOWS
    for viscosity, flow, digit in zip(_CHAIN_MU, flows, digits, strict=True)
)

NEVER = math.inf

# An ABS unit between hose and screw, as one drilling. Its length is chosen so that gravity gives
# the first of the two figures: that row can only show that nothing has moved since.
_ABS_UNIT = passage_loss(MU, RHO, 3.5e-3, 0.5e-3, 0.0)
_WITH_PORT = tuple(
    Case(
        flow_past_lip_m3_s,
        {"drive_pa": drive_pa, "path": path, "port": port(), "lip_pa": lip_pa},
        flow * ML,
        kind,
        "derived",
        where,
        abs=off * ML,
    )
    for drive_pa, path, lip_pa, flow, off, kind, where in (
        (HALF_METRE_PA, hose_chain(MU), 15e3, 0.236, 5e-4, Kind.DERIVED, "gravity, lip stays shut"),
        (100e3, hose_chain(MU), NEVER, 2.3, 0.05, Kind.DERIVED, "1 bar, lip held shut"),
        (100e3, hose_chain(MU), 0.0, 7.66, 5e-3, Kind.DERIVED, "1 bar, lip wide open"),
        *(
            (drive_pa, in_series(hose_chain(MU), _ABS_UNIT), NEVER, flow, off, kind, "ABS unit")
            for drive_pa, flow, off, kind in (
                (HALF_METRE_PA, 0.084, 5e-4, Kind.REGRESSION),
                (100e3, 1.3, 0.05, Kind.DERIVED),
            )
        ),
    )
)

_PORT_ALONE = tuple(
    Case(
        flow_m3_s,
        {"drive_pa": kpa * 1e3, "loss": port()},
        flow * ML,
        Kind.DERIVED,
        "derived",
        "port of 0.6 x 1.5 mm alone",
        abs=digit / 2 * ML,
    )
    for kpa, flow, digit in (
        (0.5, 0.055, 1e-3),
        (1, 0.105, 1e-3),
        (2, 0.193, 1e-3),
        (10, 0.665, 1e-3),
        (100, 2.78, 1e-2),
    )
)

_SHORT_TUBES = (
    *(
        Case(
            short_tube_discharge,
            {"length_m": 5.33, "bore_m": 1.0, "reynolds": reynolds},
            discharge,
            Kind.FROM_MEMORY,
            "merritt-1967",
            "short tube orifices, L/D 5.33",
            abs=5e-5,
        )
        for reynolds, discharge in (
            (10.0, 0.1658),
            (50.0, 0.3315),
            (250.0, 0.5238),
            (1000.0, 0.6321),
        )
    ),
    *(
        Case(
            drilling_drop_pa,
            {"flow_m3_s": flow * ML},
            drop,
            Kind.DERIVED,
            "merritt-1967",
            "short tube orifices, 1.5 x 8 mm",
            abs=0.5,
        )
        for flow, drop in ((0.5, 675.0), (1.0, 1542.0), (5.0, 15377.0))
    ),
    Case(
        discharge_drop_pa,
        {"flow_m3_s": 1 * ML, "bore_m": 1.5e-3, "density_kg_m3": RHO, "discharge": 1.0},
        lambda: _end_loss_pa_s2_m6() * ML**2,
        Kind.INDEPENDENT,
        "lib-fluids",
        "dP_from_K: a coefficient of one loses one velocity head",
        rel=1e-12,
    ),
    Case(
        orifice_flow_m3_s,
        {
            "drive_pa": 1e6,
            "bore_m": 0.7e-3,
            "density_kg_m3": RHO,
            "kinematic_viscosity_m2_s": MU / RHO,
        },
        0.611 * math.pi / 4 * 0.7e-3**2 * math.sqrt(2 * 1e6 / RHO),
        Kind.FROM_MEMORY,
        "merritt-1967",
        "sharp orifice at high Reynolds number, 0.611",
        rel=1e-6,
    ),
    Case(
        orifice_flow_m3_s,
        {
            "drive_pa": 0.1,
            "bore_m": 0.7e-3,
            "density_kg_m3": RHO,
            "kinematic_viscosity_m2_s": MU / RHO,
        },
        # Cd = 0.2 sqrt(Re) in q = Cd A sqrt(2 dp / rho), solved for q
        0.08 * 0.7e-3 * 0.1 / MU * math.pi / 4 * 0.7e-3**2,
        Kind.FROM_MEMORY,
        "merritt-1967",
        "sharp orifice at low Reynolds number, 0.2 sqrt(Re)",
        rel=4e-3,
    ),
)

_ELEMENTS = (
    Case(
        square_loss_pa_s2_m6,
        {"density_kg_m3": RHO, "bore_m": 1.5e-3, "loss_factor": 1.0},
        _end_loss_pa_s2_m6,
        Kind.INDEPENDENT,
        "lib-fluids",
        "dP_from_K with the loss of an exit",
        rel=1e-12,
    ),
    Case(
        passage_loss,
        {"viscosity_pa_s": MU, "density_kg_m3": RHO, "length_m": 1.5e-3, "bore_m": 0.6e-3},
        (8.488e9, 1.5 * RHO / 2 / (math.pi / 4 * 0.6e-3**2) ** 2),
        Kind.DERIVED,
        "hagen-poiseuille",
        "the law, and one and a half velocity heads",
        rel=6e-5,
    ),
    Case(
        in_series,
        {"*": (Loss(1.0, 10.0), Loss(2.0, 20.0), Loss(4.0, 40.0))},
        (7.0, 70.0),
        Kind.DERIVED,
        "derived",
        "sum",
        rel=1e-15,
    ),
    Case(
        drop_pa,
        {"flow_m3_s": 2.0, "loss": Loss(3.0, 5.0)},
        26.0,
        Kind.DERIVED,
        "definition",
        "3 x 2 + 5 x 4",
        rel=1e-15,
    ),
    Case(
        reynolds_number,
        {"flow_m3_s": 1 * ML, "bore_m": 3.2e-3, "kinematic_viscosity_m2_s": MU / RHO},
        _reynolds,
        Kind.INDEPENDENT,
        "lib-fluids",
        "Reynolds",
        rel=1e-12,
    ),
    *(
        Case(
            reynolds_number,
            {"flow_m3_s": 1 * ML, "bore_m": bore_m, "kinematic_viscosity_m2_s": MU / RHO},
            reynolds,
            Kind.DERIVED,
            "definition",
            "1 ml/s",
            abs=off,
        )
        for bore_m, reynolds, off in (
            (3.2e-3, 23.2101, 5e-5),
            (1.5e-3, 49.5, 0.05),
            (0.6e-3, 124, 0.5),
        )
    ),
    *(
        Case(
            beyond_laminar,
            {"reynolds": reynolds},
            flag,
            Kind.PUBLISHED,
            "epanet",
            "hydcoeffs.c, laminar below 2000",
            abs=1e-9,
        )
        for reynolds, flag in ((23.2, 0.0), (1999.9, 0.0), (2000.0, 1.0), (2600.0, 1.0))
    ),
)

_LEGS = tuple(Loss(laminar_resistance_pa_s_m3(MU, long, 3.2e-3), 0.0) for long in (0.6, 0.9))
_FORKS = (
    Case(
        linear_parallel,
        {"*": (_LEGS[0].linear_pa_s_m3, _LEGS[1].linear_pa_s_m3)},
        2.5179e9,
        Kind.DERIVED,
        "derived",
        "0.6 and 0.9 m of 3.2 mm side by side",
        abs=5e4,
    ),
    Case(
        parallel_drop_pa,
        {"total_m3_s": 1 * ML, "*": _LEGS},
        2517.9,
        Kind.DERIVED,
        "derived",
        "0.6 and 0.9 m of 3.2 mm side by side",
        abs=0.05,
    ),
    Case(
        branched_flows_m3_s,
        {"drive_pa": 2517.88, "trunk": Loss(1e-6, 0.0), "*": _LEGS},
        (0.6 * ML, 0.4 * ML),
        Kind.DERIVED,
        "derived",
        "0.6 and 0.9 m of 3.2 mm side by side: split 0.6 to 0.4",
        rel=1e-5,
    ),
    Case(
        branched_flows_m3_s,
        {
            "drive_pa": RHO * _EPANET_GRAVITY_M_S2 * _NETWORK_FALL_M,
            "trunk": passage_loss(MU, RHO, *_NETWORK["trunk"]),
            "*": tuple(passage_loss(MU, RHO, *_NETWORK[leg]) for leg in ("left", "right")),
        },
        _epanet_flows_m3_s,
        Kind.INDEPENDENT,
        "lib-wntr",
        "EPANET, laminar branch, with its own gravity and viscosity base; single precision",
        rel=1e-4,
    ),
)

_HEIGHTS = {"density_kg_m3": RHO, "reservoir_height_m": 1.06, "outlet_height_m": 0.56}
_DRIVES = (
    Case(
        atmosphere_pa,
        {"altitude_m": 2000.0},
        _standard_atmosphere_pa,
        Kind.INDEPENDENT,
        "lib-fluids",
        "ATMOSPHERE_1976, geometric against geopotential altitude",
        rel=2e-4,
    ),
    Case(
        atmosphere_pa,
        {"altitude_m": 0.0},
        101325.0,
        Kind.PUBLISHED,
        "definition",
        "standard atmosphere at sea level",
        rel=1e-12,
    ),
    Case(
        gravity_drive_pa,
        _HEIGHTS,
        HALF_METRE_PA,
        Kind.DERIVED,
        "derived",
        "rho g h",
        rel=1e-12,
    ),
    *(
        Case(
            vacuum_drive_pa,
            {"suction_pa": suction_pa, "atmosphere_pa": air_pa} | _HEIGHTS,
            drive_pa,
            Kind.DERIVED,
            "derived",
            where,
            rel=1e-12,
        )
        for suction_pa, air_pa, drive_pa, where in (
            (60e3, 101325.0, 60e3 + HALF_METRE_PA, "suction and head"),
            (85e3, 79500.0, 79.5e3 + HALF_METRE_PA, "no more than the atmosphere at 2000 m"),
        )
    ),
    Case(
        pressure_drive_pa,
        {"cap_pa": 100e3} | _HEIGHTS,
        100e3 + HALF_METRE_PA,
        Kind.DERIVED,
        "derived",
        "pressure and head",
        rel=1e-12,
    ),
    Case(
        reverse_drive_pa,
        {
            "syringe_pa": 50e3,
            "density_kg_m3": RHO,
            "reservoir_height_m": 1.06,
            "syringe_height_m": 0.56,
        },
        50e3 - HALF_METRE_PA,
        Kind.DERIVED,
        "derived",
        "pressure less head",
        rel=1e-12,
    ),
)

CASES = (
    *_RESISTANCES,
    *_CHAIN,
    *_WITH_PORT,
    *_PORT_ALONE,
    *_SHORT_TUBES,
    *_ELEMENTS,
    *_FORKS,
    *_DRIVES,
)
