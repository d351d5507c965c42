# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""Machines kept in memory: the fake that the contract holds to the same words as a database."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from firmlever.domain.machine import KeptPlan, Machine
from firmlever.errors import ChangedMeanwhileError, UnknownMachineError, UnknownPlanError


@dataclass
class MemoryMachines:
    """Machines and plans by their id."""

    machines: dict[str, Machine] = field(default_factory=dict)
    kept: dict[str, KeptPlan] = field(default_factory=dict)

    def all(self) -> Sequence[Machine]:
        by_name = sorted(self.machines.values(), key=lambda machine: machine.name)
        return tuple(sorted(by_name, key=lambda machine: machine.changed_at, reverse=True))

    def get(self, machine_id: str) -> Machine:
        if machine_id not in self.machines:
            raise UnknownMachineError(machine_id)
        return self.machines[machine_id]

    def add(self, machine: Machine) -> None:
        self.machines[machine.id] = machine

    def change(self, machine: Machine, read_revision: int) -> None:
        self._as_read(machine.id, read_revision)
        self.machines[machine.id] = machine

    def remove(self, machine_id: str, read_revision: int) -> None:
        self._as_read(machine_id, read_revision)
        del self.machines[machine_id]
        self.kept = {key: one for key, one in self.kept.items() if one.machine_id != machine_id}

    def keep_plan(self, plan: KeptPlan) -> None:
        self.get(plan.machine_id)
        self.kept[plan.id] = plan

    def plans(self, machine_id: str) -> Sequence[KeptPlan]:
        self.get(machine_id)
        mine = (plan for plan in self.kept.values() if plan.machine_id == machine_id)
        return tuple(sorted(mine, key=lambda plan: plan.made_at, reverse=True))

    def plan(self, plan_id: str) -> KeptPlan:
        if plan_id not in self.kept:
            raise UnknownPlanError(plan_id)
        return self.kept[plan_id]

    def _as_read(self, machine_id: str, read_revision: int) -> None:
        kept = self.get(machine_id)
        if kept.revision != read_revision:
            raise ChangedMeanwhileError(kept.name, read_revision, kept.revision)
