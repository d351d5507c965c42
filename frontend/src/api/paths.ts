// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Where machines and circuits are on the server. */
export function machinePath(id: string): string {
  return `/api/machines/${encodeURIComponent(id)}`;
}

export function circuitPath(id: string, circuit: string): string {
  return `${machinePath(id)}/circuits/${encodeURIComponent(circuit)}`;
}
