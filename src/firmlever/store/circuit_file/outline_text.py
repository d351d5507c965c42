# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The pieces of text an outline is put together from, with words on what to fill in."""

import json
from collections.abc import Sequence
from dataclasses import dataclass

from firmlever.domain.circuit import BikeClass, Control, Layout

ABS = "abs unit"
CLUTCH_TITLE = """The clutch. Check the cover before pouring: some clutches take mineral oil, and
# brake fluid ruins their seals."""

_RULE = "# " + "-" * 88
_HEAD = """\
# {name}: described by its looks.
#
# How to make it better known
#
#   1. Make the layout right. Delete a circuit or a part your machine does not have,
#      add what is missing, and let a line lead to every part.
#   2. Fill in what you know. Take the # away and write a number:
#          bore_mm = 14                        known
#          bore_mm = {{ low = 12.7, high = 14 }} somewhere between: 5 in 100 lie below, 5 above
#      Leave the # where you do not know. The plan then uses what such machines usually
#      have, says so, and names the measurements that would help it most.
#
# Heights are above the ground, with the machine as it stands on the bench. The unit of a
# number is in its name. The machine's own manual comes first wherever it says otherwise.

format = 1

[bike]
name = {quoted}
class = "{bike_class}"
other_brakes = {drums}
# mass_kg =           # ready to ride, without rider
# rider_kg =
"""
_CIRCUIT = """

{rule}
# {title}

[[circuit]]
name = "{name}"
control = "{control}"
# what the reservoir cover says, and what is in there
fluid = {{ required = ["{fluid}"], filled = "unknown" }}
# fluid = {{ required = ["{fluid}"], filled = "{fluid}", filled_on = 2024-04-20 }}
"""
_POT = """
  [[circuit.part]]
  id = "pot"
  kind = "reservoir"
  # max_ml =            # content at MAX, level; fill it from a syringe and count
  # min_ml =            # content at MIN
  # left_after_draw_ml =  # old fluid left after drawing down and wiping, never below the port
  # height_mm =         # of the fluid in it
"""
_MASTER = """
  [[circuit.part]]
  id = "{name}"
  kind = "master cylinder"
  # bore_mm =           # often cast into the body, in mm or inches: 1/2 in is 12.7, 5/8 in is 15.87
  # stroke_mm =         # full stroke of the piston
  # stroke_used =       # share of it swept while bleeding; spare the unworn end of an old bore
  # port_travel_mm =    # piston travel before the spurt in the reservoir stops
  # leverage =          # {leverage}
  # height_mm =
"""
_MASTER_SCREW = """\
    [[circuit.part.screw]]
    id = "master"
    # hex_mm =            # spanner size
"""
_MODULATOR = """
  [[circuit.part]]
  id = "abs unit"
  kind = "modulator"
  # volume_ml =         # the part of it that this circuit fills
  # unswept_ml =        # the part of that which the flow only reaches when the unit is cycled
  # height_mm =         # of its connections
"""
_SPLITTER = """
  [[circuit.part]]           # under the lower yoke
  id = "splitter"
  kind = "splitter"
  # volume_ml =         # fluid in it, mostly about one
  # height_mm =
"""
_CALIPER = """
  [[circuit.part]]
  id = "{name}"
  kind = "caliper"
  layout = {layout}
  wheel = "{wheel}"
  # pistons_mm =        # every piston, as in pistons_mm = {pistons}
  # pad_mm =            # friction material left on the thinner pad
  # pad_new_mm =        # the same on a new pad
  # volume_home_ml =    # fluid in it with the pistons pushed home
  # volume_ml =         # fluid in it with the pistons as they stand now
  # unswept_ml =        # the part of that which the flow short-cuts
  # height_mm =         # of its inlet
    [[circuit.part.screw]]
    id = "{name}"
    # hex_mm =            # spanner size, most often 8
    # height_mm =         # should be the highest point of the caliper
    # above_ml =          # chamber left above the screw, where it is not
"""
_SLAVE = """
  [[circuit.part]]
  id = "slave"
  kind = "slave cylinder"
  # pistons_mm =        # its one piston, as in pistons_mm = [35]
  # volume_ml =         # fluid in it with the clutch engaged
  # volume_home_ml =    # fluid in it with the piston pushed home
  # height_mm =         # of its inlet
    [[circuit.part.screw]]
    id = "slave"
    # hex_mm =            # spanner size
    # height_mm =
"""
_FEED_HOSE = """
  [[circuit.line]]           # the feed hose
  from = "pot"
  to = "{master}"
  material = "rubber"   # rubber, braided or steel
  # length_mm =         # lay a string along it
  # bore_mm =           # wider than a brake hose
"""
_PASSAGE = """
  [[circuit.line]]
  from = "pot"
  to = "{master}"
  bore_mm = 6           # the pot sits on the master cylinder: a passage, no hose
  length_mm = 8
"""
_LAYOUTS = {
    Layout.OPPOSED: (
        '"opposed"    # pistons on both sides; "floating": sliding, pistons on one side',
        "[32, 28, 32, 28]",
    ),
    Layout.FLOATING: (
        '"floating"   # sliding, pistons on one side; "opposed": pistons on both sides',
        "[27, 27]",
    ),
}
_PIPE = ('"steel"   ', "# 2.5 to 3.3 is usual for pipe")
_HOSE = ('"rubber"  ', "# 3.2 is a usual hose")


@dataclass(frozen=True, slots=True)
class Hose:
    """A line between two parts, with its hump and a word about it."""

    start: str
    end: str
    is_pipe: bool = False
    hump: tuple[int, int] | None = None
    note: str = ""


def head(name: str, bike_class: BikeClass, drums: Sequence[str]) -> str:
    """Write the opening words and the table of the machine."""
    quoted = json.dumps(name, ensure_ascii=False)
    return _HEAD.format(
        name=name, quoted=quoted, bike_class=bike_class, drums=json.dumps(list(drums))
    )


def circuit(title: str, name: str, control: Control, fluid: str) -> str:
    """Write the heading of a circuit."""
    return _CIRCUIT.format(rule=_RULE, title=title, name=name, control=control, fluid=fluid)


def pot() -> str:
    """Write a reservoir."""
    return _POT


def master(name: str, control: Control, *, with_screw: bool) -> str:
    """Write a master cylinder."""
    leverage = (
        "pedal travel over piston travel"
        if control is Control.PEDAL
        else "lever travel over piston travel, 50 mm in from the lever end"
    )
    return _MASTER.format(name=name, leverage=leverage) + (_MASTER_SCREW if with_screw else "")


def modulator() -> str:
    """Write an ABS unit."""
    return _MODULATOR


def splitter() -> str:
    """Write a splitter."""
    return _SPLITTER


def caliper(name: str, layout: Layout, wheel: str) -> str:
    """Write a caliper with its screw."""
    said, pistons = _LAYOUTS[layout]
    return _CALIPER.format(name=name, layout=said, wheel=wheel, pistons=pistons)


def slave() -> str:
    """Write the slave cylinder of a clutch."""
    return _SLAVE


def feed(to_master: str, *, is_hose: bool) -> str:
    """Write what leads from the pot to its master cylinder."""
    return (_FEED_HOSE if is_hose else _PASSAGE).format(master=to_master)


def hose(line: Hose) -> str:
    """Write a line."""
    material, usual_bore = _PIPE if line.is_pipe else _HOSE
    note = f"           # {line.note}" if line.note else ""
    text = f"""
  [[circuit.line]]{note}
  from = "{line.start}"
  to = "{line.end}"
  material = {material}# rubber, braided or steel
  # length_mm =         # lay a string along it
  # bore_mm =           {usual_bore}
"""
    if line.hump is None:
        return text
    via = f"via = [[{line.hump[0]}, {line.hump[1]}]]"
    return f"""{text}  {via:22}# [mm along the line, height] of each turning point: here a hump
  #                     # where air can stay. Delete it where the line only falls.
"""
