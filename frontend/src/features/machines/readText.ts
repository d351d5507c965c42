// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { done, failed, type Result } from "../../lib/result";

/** The server takes no more. */
const MOST_BYTES = 1_000_000;

/** Read a chosen file, or say in a sentence why it cannot be a circuit file. */
export async function readText(file: File): Promise<Result<string, string>> {
  if (file.size > MOST_BYTES) {
    const megabytes = (file.size / MOST_BYTES).toFixed(1);
    return failed(
      `${file.name} has ${megabytes} MB, and at most 1 MB is taken; a circuit file has a few thousand characters. Choose the file that ends in .toml.`,
    );
  }
  if (file.size === 0) return failed(`${file.name} is empty. Choose the file that ends in .toml.`);
  try {
    // Strict: a picture or an office file must not come in as a row of question marks.
    const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
    return done(decoder.decode(await file.arrayBuffer()));
  } catch {
    return failed(
      `${file.name} is not plain text in UTF-8. Choose the file that ends in .toml, or save it again as plain text.`,
    );
  }
}
