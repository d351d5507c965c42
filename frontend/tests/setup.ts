// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { cleanup, configure } from "@testing-library/preact";
import { afterEach, vi } from "vitest";

// A busy machine takes several times as long as a quiet one; what passes is not slower by it.
vi.setConfig({ testTimeout: 30_000 });
configure({ asyncUtilTimeout: 5_000 });

afterEach(() => {
  cleanup();
  localStorage.clear();
});
