// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import axe from "axe-core";

/** What axe-core finds wrong on the page; colours and sizes are for a real browser. */
export async function violations(): Promise<readonly string[]> {
  const found = await axe.run(document.body, {
    rules: { "color-contrast": { enabled: false }, region: { enabled: false } },
  });
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" ")}`);
}
