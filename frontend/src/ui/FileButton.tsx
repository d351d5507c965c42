// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useId } from "preact/hooks";

interface Props {
  readonly children: string;
  /** Kinds of file, as the browser's chooser takes them. */
  readonly accept: string;
  readonly onChosen: (file: File) => Promise<void>;
}

/** A button that asks for a file. */
export function FileButton({ children, accept, onChosen }: Props): ComponentChild {
  const id = useId();
  return (
    <label class="button button-plain file-button" for={id}>
      {children}
      <input
        id={id}
        type="file"
        accept={accept}
        onChange={(event) => {
          const input = event.currentTarget;
          const file = input.files?.[0];
          // Emptied, so that the same file can be chosen again once it was put right.
          if (file !== undefined) void onChosen(file).finally(() => (input.value = ""));
        }}
      />
    </label>
  );
}
