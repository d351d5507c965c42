// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild, ComponentChildren } from "preact";

export interface Column {
  readonly head: ComponentChildren;
  /** Figures stand to the right, under each other. */
  readonly isFigure?: boolean;
}

interface Props {
  readonly caption: ComponentChildren;
  readonly columns: readonly Column[];
  /** The first cell of each row names it. */
  readonly rows: readonly (readonly ComponentChildren[])[];
  readonly hideCaption?: boolean;
}

/** Rows and columns; on a narrow screen it scrolls within itself. */
export function Table({ caption, columns, rows, hideCaption = false }: Props): ComponentChild {
  const place = (position: number): string => (columns[position]?.isFigure ? "figure-cell" : "");
  return (
    // A box that scrolls must be reachable by keyboard.
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
    <div class="table-scroll" tabIndex={0} role="group" aria-label="Table">
      <table class="table">
        <caption class={hideCaption ? "only-heard" : ""}>{caption}</caption>
        <thead>
          <tr>
            {columns.map((column, position) => (
              <th scope="col" class={place(position)} key={position}>
                {column.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, line) => (
            <tr key={line}>
              {row.map((cell, position) =>
                position === 0 ? (
                  <th scope="row" class={place(position)} key={position}>
                    {cell}
                  </th>
                ) : (
                  <td class={place(position)} key={position}>
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
