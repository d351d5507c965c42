// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import { getRecord, recordPath } from "../../api/record";
import { openDrawer } from "../../outbox/drawer";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { LinkButton } from "../../ui/LinkButton";
import { Load } from "../../ui/Load";
import { Notice } from "../../ui/Notice";
import { Screen } from "../../ui/Screen";
import { useResource } from "../../ui/resource";
import { RecordSheet } from "./RecordSheet";

/** The record of a job as a page to read, to print and to keep. */
export function RecordPage({ id }: { readonly id: string }): ComponentChild {
  const told = useResource((signal) => getRecord(id, signal), [id]);
  const waiting = useWaiting(id);
  const { value } = told;
  const name = value === null ? "record.json" : `record-${fileWord(value.bike)}-${fileWord(value.circuit)}.json`;
  return (
    <Screen title={value === null ? "The record" : `Record: ${value.bike}, ${value.circuit}`}>
      <div class="row not-printed">
        <Button kind="do" onClick={() => print()} disabled={value === null}>
          Print
        </Button>
        <LinkButton href={recordPath(id)} download={name}>
          Keep as JSON
        </LinkButton>
        <LinkButton href={to.job(id)}>To the bench</LinkButton>
      </div>
      {waiting > 0 ? (
        <Notice kind="stop" title={`${waiting === 1 ? "One tap waits" : `${waiting} taps wait`} on this device`}>
          <p>
            {waiting === 1 ? "It is" : "They are"} not in this record yet. Open the job at the bench while the laptop can be
            reached, then come back.
          </p>
        </Notice>
      ) : null}
      <Load of={told} doing="Telling the record from the log">
        {(record) => <RecordSheet record={record} />}
      </Load>
    </Screen>
  );
}

/** How many taps of this job the laptop does not have yet. */
function useWaiting(job: string): number {
  const [waiting, setWaiting] = useState(0);
  useEffect(() => {
    let isOver = false;
    void openDrawer()
      .then((drawer) => drawer.all(job))
      .catch(() => [])
      .then((entries) => {
        if (!isOver) setWaiting(entries.length);
      });
    return () => {
      isOver = true;
    };
  }, [job]);
  return waiting;
}

function fileWord(name: string): string {
  return name.toLowerCase().replaceAll(/[^\p{L}\p{N}]+/gu, "-");
}
