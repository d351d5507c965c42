// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { keepLever, markGood, type LeverResult, type Readings } from "../../api/levers";
import { idClock } from "../../bench/ids";
import { deviceHere } from "../../lib/device";
import type { Failure } from "../../lib/request";
import { recall, remember } from "../../lib/storage";
import { text } from "../../lib/validate";
import { to } from "../../routes";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Field } from "../../ui/Field";
import { LinkButton } from "../../ui/LinkButton";
import { Notice } from "../../ui/Notice";
import { writeMeasured } from "./forJob";

const LONGEST_NAME = 60;

/** Who keeps tests on this device; the bench asks for the same name. */
export function nameHere(): string {
  return recall("bench who", text, "");
}

export interface KeepProps {
  readonly machine: string;
  readonly circuit: string;
  readonly job: string | null;
  readonly result: LeverResult;
  readonly read: Readings;
  /** The id it was sent under before, if it was. */
  readonly id: string | null;
  readonly onId: (id: string) => void;
  readonly onKept: (id: string) => void;
}

/** Keep the test with a name; sent twice it is kept once. */
export function KeepIt({ machine, circuit, job, result, read, id, onId, onKept }: KeepProps): ComponentChild {
  const [name, setName] = useState(nameHere);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isBusy, setBusy] = useState(false);
  const who = name.trim().slice(0, LONGEST_NAME);
  const keep = async (): Promise<void> => {
    setBusy(true);
    remember("bench who", who);
    const own = id ?? idClock().next();
    // Written down before it is sent: sent once more after a reload, it must be the same test.
    onId(own);
    const answer = await keepLever(machine, circuit, read, { id: own, who, job_id: job });
    if (answer.ok && job !== null) {
      await writeMeasured(job, own, result.air_after_ml ?? result.air_ml, who, deviceHere());
    }
    setBusy(false);
    setFailure(answer.ok ? null : answer.reason);
    if (answer.ok) onKept(own);
  };
  return (
    <section class="lever-part" aria-labelledby="lever-keep">
      <h2 id="lever-keep">Keep it</h2>
      <Field label="Your name" value={name} onInput={setName} />
      {failure ? <ErrorNotice failure={failure} kept="The readings are still on this device." /> : null}
      <p>
        <Button kind="do" busy={isBusy} disabled={who === ""} onClick={() => void keep()}>
          Keep this test
        </Button>
      </p>
    </section>
  );
}

interface DoneProps {
  readonly machine: string;
  readonly circuit: string;
  readonly job: string | null;
  readonly id: string;
  readonly isGood: boolean;
  readonly onGood: () => void;
}

/** It is kept: what may be done with it now. */
export function JustKept({ machine, circuit, job, id, isGood, onGood }: DoneProps): ComponentChild {
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isBusy, setBusy] = useState(false);
  const mark = async (): Promise<void> => {
    setBusy(true);
    const answer = await markGood(machine, circuit, id, nameHere());
    setBusy(false);
    setFailure(answer.ok ? null : answer.reason);
    if (answer.ok) onGood();
  };
  return (
    <Notice kind="done" title="This test is kept">
      {job === null ? null : (
        <p>The air it found stands in the job's log. The question at the bench is still yours to answer.</p>
      )}
      {isGood ? <p>It is this machine's good state: later tests are held against it.</p> : null}
      {failure ? <ErrorNotice failure={failure} /> : null}
      <p class="row">
        {job === null ? null : (
          <LinkButton kind="do" href={to.job(job)}>
            Back to the bench
          </LinkButton>
        )}
        {isGood ? null : (
          <Button busy={isBusy} onClick={() => void mark()}>
            Make it the good state
          </Button>
        )}
      </p>
    </Notice>
  );
}
