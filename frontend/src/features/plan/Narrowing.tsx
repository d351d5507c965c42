// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";

import type { Scene } from "../../api/circuits";
import type { MachineDetail } from "../../api/machines";
import type { FlushPlan, Narrow } from "../../api/plan";
import { say } from "../../display";
import { span } from "../../lib/figures";
import { Button } from "../../ui/Button";
import { Answer } from "./Answer";
import { goToWarmth } from "./Goal";
import { narrowGist } from "./gist";
import { Part } from "./Part";
import { asSentence, changeWords, givenNames, ownerOf, ownerWords } from "./sentence";

const SHOWN = 5;

interface Props {
  readonly plan: FlushPlan;
  readonly scene: Scene;
  /** Null until it is read: nothing can be changed before. */
  readonly machine: MachineDetail | null;
  readonly isWorking: boolean;
  readonly onKept: (machine: MachineDetail) => void;
}

/** What one measurement would buy, with the place to say it. */
export function Narrowing(props: Props): ComponentChild {
  const { plan, scene, machine, isWorking, onKept } = props;
  const [open, setOpen] = useState<string | null>(null);
  const [answered, setAnswered] = useState<FlushPlan | null>(null);
  const told = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (answered) told.current?.focus({ preventScroll: true });
  }, [answered]);
  if (plan.narrow.length === 0 && answered === null) return null;
  return (
    <Part title="What would narrow this" gist={narrowGist(plan, scene)}>
      <p class="soft">
        The per cent is how much of the headline's spread (as variance) one measurement takes away.
      </p>
      <p class="narrow-told" ref={told} tabIndex={-1} role="status">
        {answered ? toldWords(answered, plan, isWorking) : ""}
      </p>
      <ul class="narrow">
        {plan.narrow.slice(0, SHOWN).map((entry) => (
          <li class="narrow-entry" key={entry.name}>
            <Gain entry={entry} plan={plan} scene={scene} />
            {machine && open === entry.name ? (
              <Answer
                entry={entry}
                circuit={plan.circuit}
                machine={machine}
                onKept={(changed) => {
                  setOpen(null);
                  setAnswered(plan);
                  onKept(changed);
                }}
                onClose={() => setOpen(null)}
              />
            ) : (
              <Way entry={entry} scene={scene} canAnswer={machine !== null} onOpen={() => setOpen(entry.name)} />
            )}
          </li>
        ))}
      </ul>
    </Part>
  );
}

function Gain({ entry, plan, scene }: { entry: Narrow; plan: FlushPlan; scene: Scene }): ComponentChild {
  const owners = [entry.name, ...entry.also].map((name) => ownerWords(ownerOf(name), scene)).join(" and ");
  return (
    <>
      <p class="narrow-gain">
        <strong class="narrow-figure">{span(entry.per_cent, entry.per_cent)} %</strong>
        <span>
          {say(asSentence(`${owners}: ${entry.words}`), givenNames(plan))}
        </span>
      </p>
      {entry.measure ? <p class="soft">{say(asSentence(entry.measure))}</p> : null}
    </>
  );
}

function Way(props: { entry: Narrow; scene: Scene; canAnswer: boolean; onOpen: () => void }): ComponentChild {
  const { entry, scene, canAnswer, onOpen } = props;
  if (isOfMachine(entry, scene)) {
    return (
      <Button onClick={onOpen} disabled={!canAnswer}>
        I know it<span class="only-heard">: {entry.words}, {ownerOf(entry.name)}</span>
      </Button>
    );
  }
  if (!entry.name.startsWith("work/workshop")) return null;
  return <Button onClick={goToWarmth}>Say how warm it is</Button>;
}

function isOfMachine(entry: Narrow, scene: Scene): boolean {
  const owner = ownerOf(entry.name);
  return owner.startsWith("screw:") || [...scene.parts, ...scene.lines].some((one) => one.owner === owner);
}

function toldWords(before: FlushPlan, now: FlushPlan, isWorking: boolean): string {
  return isWorking || before === now
    ? "Kept. The plan is being worked out again …"
    : `Kept. ${changeWords(before, now)}`;
}
