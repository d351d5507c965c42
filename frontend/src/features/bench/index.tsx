// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The screens of a job at the bench. */
export { AtBench } from "./AtBench";
export { Jobs } from "./Jobs";
export { StartJob } from "./StartJob";
export { Symptoms } from "./Symptoms";
