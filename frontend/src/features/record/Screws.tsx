// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { BenchRecord, RecordScrew } from "../../api/record";
import { say } from "../../display";
import { capital } from "../../lib/words";
import { Table } from "../../ui/Table";
import { givenNames, type Row } from "./said";

interface Props {
  readonly record: BenchRecord;
  readonly screws: readonly RecordScrew[];
  readonly rows: readonly Row[];
  readonly title: string;
}

/** One column a screw: there are seldom more than three, and a phone is narrow. */
export function Screws({ record, screws, rows, title }: Props): ComponentChild {
  const keep = givenNames(record);
  return (
    <section class="record-part record-screws">
      <Table
        caption={title}
        columns={[{ head: "Screw" }, ...screws.map((screw) => ({ head: <strong>{capital(say(screw.at, keep))}</strong> }))]}
        rows={rows.map((row) => [say(row.name), ...screws.map((screw) => say(row.of(screw), keep))])}
      />
    </section>
  );
}
