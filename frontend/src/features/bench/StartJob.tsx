// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import { startJob } from "../../api/jobs";
import type { Posture } from "../../bench/event";
import type { Failure } from "../../lib/request";
import { to } from "../../routes";
import { Choice } from "../../ui/Choice";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Field } from "../../ui/Field";
import { Screen } from "../../ui/Screen";
import { wishOf } from "../../api/wish";
import { MainBar } from "./MainBar";
import { deviceName, keepSettings, who } from "./settings";
import "./bench.css";

interface Props {
  readonly id: string;
  readonly circuit: string;
}

/** Start a job from the plan in the address: who, and how the machine stands. */
export function StartJob({ id, circuit }: Props): ComponentChild {
  const [posture, setPosture] = useState<Posture>("level");
  const [standing, setStanding] = useState<"open" | "sending" | Failure>("open");
  useEffect(keepSettings, []);
  const name = who.value.trim().slice(0, 60);
  const start = async (): Promise<void> => {
    setStanding("sending");
    const answer = await startJob(id, circuit, { ...wishOf(location.hash), who: name, device: deviceName(), posture });
    if (answer.ok) location.hash = to.job(answer.value.id);
    else setStanding(answer.reason);
  };
  return (
    <Screen
      title="Start at the bench"
      lead={`The ${circuit} circuit, by the plan you came from. Everything from here on is written down as you tap.`}
      back={{ href: to.plan(id, circuit), name: "The plan" }}
    >
      <Field label="Who works?" hint="The name stands beside every tap in the record." value={who.value} onInput={(value) => (who.value = value)} />
      <Choice
        legend="How does the machine stand?"
        value={posture}
        onChange={setPosture}
        options={[
          { value: "level", label: "The reservoir is level", hint: "paddock or centre stand, bars turned so that it is" },
          { value: "side stand", label: "On the side stand", hint: "a leaning reservoir runs low earlier; every countdown allows for it" },
        ]}
      />
      {typeof standing === "object" ? <ErrorNotice failure={standing} /> : null}
      <div class="bench">
        <MainBar
          title={standing === "sending" ? "Starting …" : "Start the job"}
          disabled={name === "" || standing === "sending"}
          onPress={() => void start()}
        />
      </div>
    </Screen>
  );
}
