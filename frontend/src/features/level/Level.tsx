// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { judgeLevel, listLooks } from "../../api/looks";
import { getMachine } from "../../api/machines";
import { measures, metricOf, say, shown, unit } from "../../display";
import { recall, remember } from "../../lib/storage";
import { number, orNull } from "../../lib/validate";
import { to } from "../../routes";
import { Field } from "../../ui/Field";
import { Load } from "../../ui/Load";
import { Screen } from "../../ui/Screen";
import { useResource } from "../../ui/resource";
import { AddLook } from "./AddLook";
import { Looks } from "./Looks";
import { Result } from "./Result";
import { OF_A_CLUTCH } from "./told";
import "./level.css";

interface Props {
  readonly id: string;
  readonly circuit: string;
}

/** The level of one circuit: what the looks say, a further look, and those that were kept. */
export function Level({ id, circuit }: Props): ComponentChild {
  const machine = useResource((signal) => getMachine(id, signal), [id]);
  const name = machine.value?.name;
  return (
    <Screen
      title={name === undefined ? "Level" : `Level: ${name}, ${circuit}`}
      lead="Dated looks at the reservoir tell wear from a leak."
      back={{ href: to.machine(id), name: name ?? "The machine" }}
    >
      <Load of={machine} doing="Looking for the machine">
        {(found) => {
          const parts = found.bike.circuits.find((one) => one.name === circuit)?.parts ?? [];
          const calipers = parts.filter((part) => part.kind === "caliper").map((part) => part.id);
          return <Stage id={id} circuit={circuit} calipers={calipers} />;
        }}
      </Load>
    </Screen>
  );
}

function Stage({ id, circuit, calipers }: Props & { calipers: readonly string[] }): ComponentChild {
  const [marks, apartMm, setMarks] = useMarks(id, circuit);
  const fineness = { ruler: 0.5, gauge: 0.5, marks: apartMm };
  const looks = useResource((signal) => listLooks(id, circuit, signal), [id, circuit]);
  const level = useResource((signal) => judgeLevel(id, circuit, fineness, signal), [id, circuit, fineness.marks]);
  const again = (): void => {
    looks.again();
    level.again();
    window.scrollTo(0, 0);
  };
  return (
    <>
      <Load of={level} doing="Judging the level">
        {({ document }) => (document === null ? <NoLooks isClutch={calipers.length === 0} /> : <Result report={document} />)}
      </Load>
      <Field
        label="From MIN to MAX, if measured"
        hint="Without it what is usual is taken, and the band is wider."
        unit={unit("mm")}
        inputMode="decimal"
        value={marks}
        onInput={setMarks}
      />
      <AddLook key={measures.value} machine={id} circuit={circuit} calipers={calipers} onKept={again} />
      <Load of={looks} doing="Looking for kept looks">
        {(found) => <Looks machine={id} circuit={circuit} looks={found.looks} onChanged={again} />}
      </Load>
    </>
  );
}

function NoLooks({ isClutch }: { isClutch: boolean }): ComponentChild {
  return (
    <>
      <p>No looks are kept yet.</p>
      {isClutch ? <p>{say(OF_A_CLUTCH)}</p> : null}
    </>
  );
}

/** How far MIN and MAX stand apart: as typed, in millimetres, and how to change it. It is measured once, so it is remembered. */
function useMarks(id: string, circuit: string): readonly [string, number | null, (typed: string) => void] {
  const name = `marks apart: ${id} ${circuit}`;
  const [apartMm, setApart] = useState(() => recall(name, orNull(number), null));
  const [typed, setTyped] = useState(() => (apartMm === null ? "" : String(Number(shown(apartMm, "mm").toPrecision(4)))));
  const change = (text: string): void => {
    const apart = Number(text.replace(",", "."));
    const next = apart > 0 ? Number(metricOf(apart, "mm").toPrecision(6)) : null;
    setTyped(text);
    setApart(next);
    remember(name, next);
  };
  return [typed, apartMm, change];
}
