# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Circuit files on disk, and those that come with the package."""

from collections.abc import Sequence
from importlib.resources import files
from importlib.resources.abc import Traversable

from firmlever.domain.circuit import Bike, BikeClass
from firmlever.domain.quantity import Quantity
from firmlever.errors import ImpossibleOptionError, UnknownNameError
from firmlever.store.disk import create_text, read_text, replace_text


class TomlCircuitFiles:
    """Circuit files in TOML, format 1.

    Parameters
    ----------
    grades
        Names of the grades of fluid that a file may name.
    """

    def __init__(self, grades: Sequence[str]) -> None:
        self._grades = tuple(grades)

    def read(self, file: str) -> Bike:
        """Read and check a file; all its problems come in one error.

        Raises
        ------
        UnreadableFileError
            When it is no text file of at most 1 MB.
        CircuitFileError
            With everything that is wrong in it.
        BeyondToolError
            When the machine must not be approximated.
        """
        return self._checked(file, read_text(file))

    def write_new(self, file: str, bike_class: str, name: str) -> None:
        """Write the outline of a class of machine to a file that is not there yet.

        Raises
        ------
        UnknownNameError
            When there is no such class.
        ImpossibleOptionError
            When the name cannot be a name.
        FileInTheWayError
            When something of that name is there.
        NotWrittenError
            When the disk or a permission stood in the way.
        """
        from firmlever.store.circuit_file.rules import text_faults
        from firmlever.store.circuit_file.write import with_name

        if bike_class not in tuple(BikeClass):
            raise UnknownNameError("class", bike_class, tuple(BikeClass))
        for found, allowed in text_faults(name, is_name=False):
            raise ImpossibleOptionError("the name", f"used: {found}", allowed)
        outline = _packaged("examples").joinpath(f"{bike_class}.toml").read_text("utf-8")
        create_text(file, with_name(outline, name))

    def set_quantity(self, file: str, key: str, value: Quantity) -> None:
        """Change one quantity, keeping comments and every other byte.

        ``key`` is ``bike/mass_kg``, ``front/master/bore_mm`` for a part,
        ``front/master > abs unit/length_mm`` for a line, or
        ``front/screw:left caliper/hex_mm`` for a screw.

        Raises
        ------
        UnreadableFileError, CircuitFileError, BeyondToolError
            As for `read`, before or after the change; nothing is written then.
        UnknownNameError
            When the machine has no such thing.
        NotWrittenError
            When the disk or a permission stood in the way.
        """
        from firmlever.store.circuit_file.write import with_quantity

        text = read_text(file)
        changed = with_quantity(file, text, self._checked(file, text), key, value)
        self._checked(file, changed)
        replace_text(file, changed)

    def schema(self) -> dict[str, object]:
        """Return the JSON Schema of the format."""
        from firmlever.store.circuit_file.schema import circuit_schema

        return circuit_schema(self._grades)

    def demo(self) -> Sequence[Bike]:
        """Return the machines of the demo workshop, by file name."""
        entries = sorted(_packaged("demo").iterdir(), key=lambda entry: entry.name)
        return tuple(
            self._checked(entry.name, entry.read_text("utf-8"))
            for entry in entries
            if entry.name.endswith(".toml")
        )

    def _checked(self, file: str, text: str) -> Bike:
        from firmlever.store.circuit_file.read import read_bike

        return read_bike(file, text, self._grades)


def _packaged(folder: str) -> Traversable:
    return files("firmlever").joinpath("data", folder)
