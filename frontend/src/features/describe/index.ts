// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
export { NewMachine } from "./looks/NewMachine";
export { Questions } from "./measure/Questions";
