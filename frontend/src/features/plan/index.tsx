// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
export { KeptPlan } from "./KeptPlan";
export { Plan } from "./Plan";
export { PrintPlan } from "./PrintPlan";
