// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { nothing, request, type Answer } from "../lib/request";
import { both, listOf, mapOf, number, oneOf, orNull, pairOf, record, text, whole, yesNo, type Of } from "../lib/validate";
import { machinePath } from "./paths";
import { bikeClass, control, quantity, type AnswerValue, type BikeClass } from "./shapes";

const circuitSummary = record({
  name: text,
  control,
  fluid: orNull(text),
  screws: whole,
  known: whole,
  of: whole,
});
export type CircuitSummary = Of<typeof circuitSummary>;

export const machineSummary = record({
  id: text,
  name: text,
  bike_class: bikeClass,
  revision: whole,
  changed_at: text,
  is_demo: yesNo,
  circuits: listOf(circuitSummary),
});
export type MachineSummary = Of<typeof machineSummary>;

export const machineList = record({ machines: listOf(machineSummary) });

const given = mapOf(orNull(quantity));
const screw = record({ id: text, given });
const part = record({
  id: text,
  kind: text,
  given,
  screws: listOf(screw),
  layout: orNull(oneOf("opposed", "floating")),
  pistons_mm: listOf(number),
  wheel: orNull(text),
  body: orNull(text),
});
const line = record({
  start: text,
  end: text,
  given,
  material: orNull(text),
  via_mm: listOf(pairOf(number, number)),
});
const fluid = record({ required: listOf(text), filled: orNull(text), filled_on: orNull(text) });
const circuit = record({ name: text, control, parts: listOf(part), lines: listOf(line), fluid });
export type Circuit = Of<typeof circuit>;
const step = record({
  circuit: text,
  screw: text,
  posture: orNull(text),
  until: orNull(text),
  note: orNull(text),
});
const bike = record({
  name: text,
  bike_class: bikeClass,
  circuits: listOf(circuit),
  given,
  other_brakes: listOf(text),
  sequence: listOf(step),
});

export const machineDetail = both(machineSummary, record({ text, bike }));
export type MachineDetail = Of<typeof machineDetail>;

/** What somebody sees of a machine by looking at it; null is "don't know". */
export interface Outline {
  readonly name: string;
  readonly bike_class: BikeClass;
  readonly front_discs: number | null;
  readonly front_layout: "opposed" | "floating" | null;
  readonly fork: "splitter" | "double banjo" | "caliper to caliper" | null;
  readonly abs_unit: boolean | null;
  readonly rear_disc: boolean | null;
  readonly hydraulic_clutch: boolean | null;
  readonly fluid: string | null;
}

/** One value to set; null forgets it. `key` is circuit/part/key. */
export interface Change {
  readonly key: string;
  readonly value: AnswerValue | null;
}

/** Where a machine's circuit file can be fetched by a plain link. */
export function fileAddress(id: string): string {
  return `${machinePath(id)}/file`;
}

export function listMachines(signal?: AbortSignal): Answer<Of<typeof machineList>> {
  return request("/api/machines", { check: machineList, signal });
}

export function getMachine(id: string, signal?: AbortSignal): Answer<MachineDetail> {
  return request(machinePath(id), { check: machineDetail, signal });
}

export function makeMachine(outline: Outline): Answer<MachineDetail> {
  return request("/api/machines", { method: "POST", json: { outline }, check: machineDetail });
}

export function importFile(content: string): Answer<MachineDetail> {
  return request("/api/machines/file", { method: "POST", text: content, check: machineDetail });
}

export function replaceText(id: string, readRevision: number, content: string): Answer<MachineDetail> {
  return request(fileAddress(id), {
    method: "PUT",
    json: { read_revision: readRevision, text: content },
    check: machineDetail,
  });
}

/** All changes are made, or none. */
export function changeMachine(id: string, readRevision: number, changes: readonly Change[]): Answer<MachineDetail> {
  return request(machinePath(id), {
    method: "PATCH",
    json: { read_revision: readRevision, changes },
    check: machineDetail,
  });
}

export function removeMachine(id: string, readRevision: number): Answer<null> {
  return request(`${machinePath(id)}?read_revision=${readRevision}`, { method: "DELETE", check: nothing });
}

export function putDemoBack(): Answer<Of<typeof machineList>> {
  return request("/api/demo", { method: "POST", check: machineList });
}
