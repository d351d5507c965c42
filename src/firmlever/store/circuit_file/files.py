# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Circuit files on disk, and those that come with the package."""

from collections import Counter
from collections.abc import Sequence
from importlib.resources import files
from importlib.resources.abc import Traversable

from firmlever.domain.circuit import Bike, BikeClass
from firmlever.domain.machine import Change, Outline
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

    def text(self, file: str) -> str:
        """Return the text of a small file that goes with a circuit, such as readings.

        Raises
        ------
        UnreadableFileError
            When it is no text file of at most 1 MB.
        """
        return read_text(file)

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

    def change(self, file: str, changes: Sequence[Change]) -> None:
        """Make all changes in a file, keeping comments and every other byte.

        Raises
        ------
        UnreadableFileError, CircuitFileError, BeyondToolError
            As for `read`, before or after the changes; nothing is written then.
        UnknownNameError, ImpossibleOptionError
            When the machine has no such thing, or one is named twice.
        NotWrittenError
            When the disk or a permission stood in the way.
        """
        text = read_text(file)
        replace_text(file, self.changed(file, text, changes))

    def parse(self, name: str, text: str) -> Bike:
        """Read and check a text; ``name`` stands for the file in what is said of it.

        Raises
        ------
        CircuitFileError
            With everything that is wrong in it.
        BeyondToolError
            When the machine must not be approximated.
        """
        return self._checked(name, text)

    def outline(self, outline: Outline) -> str:
        """Return the text of a machine known only by its looks.

        Raises
        ------
        UnknownNameError, ImpossibleOptionError
            When there is no such fork or grade, or the looks fit no machine.
        """
        from firmlever.store.circuit_file.outline import outline_text

        return outline_text(outline, self._grades)

    def changed(self, name: str, text: str, changes: Sequence[Change]) -> str:
        """Return the text with all changes made and checked; nothing half-way.

        A key is ``bike/mass_kg``, ``front/master/bore_mm`` for a part,
        ``front/master > abs unit/length_mm`` for a line, or
        ``front/screw:left caliper/hex_mm`` for a screw.

        Raises
        ------
        CircuitFileError, BeyondToolError
            When the text is unsound before or after the changes.
        UnknownNameError, ImpossibleOptionError
            When the machine has no such thing, or one is named twice.
        NotWrittenError
            When a value is written in a way only a hand can change.
        """
        from firmlever.store.circuit_file.write import with_value

        bike = self._checked(name, text)
        for key, count in Counter(change.key for change in changes).items():
            if count > 1:
                raise ImpossibleOptionError(key, f"set {count} times at once", "give one value")
        for change in changes:
            text = with_value(name, text, bike, change.key, change.value)
        self._checked(name, text)
        return text

    def schema(self) -> dict[str, object]:
        """Return the JSON Schema of the format."""
        from firmlever.store.circuit_file.schema import circuit_schema

        return circuit_schema(self._grades)

    def demo(self) -> Sequence[Bike]:
        """Return the machines of the demo workshop, by file name."""
        return tuple(self._checked("demo", text) for text in self.demo_texts())

    def demo_texts(self) -> Sequence[str]:
        """Return the texts of the demo workshop, by file name."""
        entries = sorted(_packaged("demo").iterdir(), key=lambda entry: entry.name)
        return tuple(entry.read_text("utf-8") for entry in entries if entry.name.endswith(".toml"))

    def _checked(self, file: str, text: str) -> Bike:
        from firmlever.store.circuit_file.read import read_bike

        return read_bike(file, text, self._grades)


def _packaged(folder: str) -> Traversable:
    return files("firmlever").joinpath("data", folder)
