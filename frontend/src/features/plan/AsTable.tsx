// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { Unfold } from "../../ui/Unfold";

/** A picture's figures as a table, made when somebody opens it. */
export function AsTable({ table }: { readonly table: () => ComponentChild }): ComponentChild {
  const [isOpen, setOpen] = useState(false);
  return (
    <Unfold summary="The same as a table" open={isOpen} onToggle={setOpen}>
      {isOpen ? table() : null}
    </Unfold>
  );
}
