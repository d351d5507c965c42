// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** What axe-core finds wrong with what is on the page now. Colours need a real browser. */
import axe from "axe-core";

export async function axeFaults(): Promise<readonly string[]> {
  const found = await axe.run(document.body, {
    rules: { "color-contrast": { enabled: false }, region: { enabled: false } },
  });
  return found.violations.flatMap((fault) => fault.nodes.map((node) => `${fault.id}: ${node.html}`));
}
