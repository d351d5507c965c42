// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import type { BenchRecord } from "../../api/record";
import { bottleWords, whyWords } from "../../bench/said";
import { dayShown, momentShown, say } from "../../display";
import { cautionsOf, shortened } from "../../lib/cautions";
import { plain } from "../../lib/figures";
import { capital } from "../../lib/words";
import { Gates } from "./Gates";
import { Lines, type Line } from "./Lines";
import { Screws } from "./Screws";
import {
  changedRows,
  doubtWords,
  entryWords,
  givenNames,
  listed,
  markWords,
  openWords,
  phaseWords,
  rowsOf,
  signerWords,
  sinceSigned,
  workWords,
} from "./said";
import "./record.css";

/** So many screws leave room beside their table. */
const BESIDE = 2;

/** One page: what was done, on what evidence, by whom, and what is open. It passes no verdict. */
export function RecordSheet({ record }: { readonly record: BenchRecord }): ComponentChild {
  const keep = givenNames(record);
  return (
    <article class="record">
      <p>{say(workWords(record), keep)}</p>
      {record.work_why === null ? null : <p>It became a bleed: {say(whyWords(record.work_why))}.</p>}
      <p class="record-standing">
        <strong>{phaseWords(record)}.</strong> {openWords(record)}
      </p>
      <div class={record.screws.length <= BESIDE ? "record-top" : "record-whole"}>
        <Screws record={record} screws={record.screws} rows={rowsOf(record, record.screws)} title="Screw by screw" />
        <div class="record-whole">
          <Lines title="Fluid and parts" lines={fluidLines(record)} />
          <Lines title="Seen in the tube" lines={markLines(record)} />
        </div>
      </div>
      {record.corrected.length === 0 ? null : (
        <Screws
          record={record}
          screws={record.corrected}
          rows={changedRows(record)}
          title="Corrected since the last end: what reads otherwise now"
        />
      )}
      <div class="record-halves">
        <Gates title="Asked before opening" gates={record.gates.filter(({ before }) => before === "opening")} keep={keep} />
        <Gates title="Asked at the screws" gates={record.gates.filter(({ before }) => before === "screw" || before === "shutting")} keep={keep} />
        <Gates title="Asked before rolling" gates={record.gates.filter(({ before }) => before === "rolling")} keep={keep} />
      </div>
      <div class="record-halves">
        <Lines title="Ends and rechecks" lines={endLines(record)} />
        <Lines title="Measured and noted" lines={noteLines(record)} />
      </div>
      <Lines
        title="Corrected after an end"
        lines={record.corrections.map((entry) => ({ words: say(entryWords(entry, record.taken_back), keep) }))}
      />
      <Lines title="Taken back" lines={record.taken_back.map((entry) => ({ words: say(entryWords(entry, []), keep) }))} />
      <Lines
        title="Cautions"
        isSmall
        lines={cautionsOf(record.cautions).map(({ topic, words }) => ({ name: say(topic, keep), words: say(shortened(words), keep) }))}
      />
      <p class="record-small">
        <strong>{say(record.says)}</strong>
      </p>
      <Signed record={record} />
    </article>
  );
}

function markLines(record: BenchRecord): readonly Line[] {
  const keep = givenNames(record);
  return [...record.screws, ...record.corrected].flatMap((screw) =>
    screw.marks.map((mark) => ({ key: mark.event, name: capital(screw.at), words: say(markWords(mark), keep) })),
  ).filter((line, place, all) => all.findIndex(({ key }) => key === line.key) === place);
}

function fluidLines(record: BenchRecord): readonly Line[] {
  const bottles = record.bottles.map((bottle) => ({ name: "Bottle", words: bottleWords(bottle, dayShown) }));
  return [
    { name: "Fluid", words: record.fluid },
    ...(bottles.length === 0 ? [{ name: "Bottle", words: null }] : bottles),
    { name: "Top-ups in all", words: String(record.topups) },
    ...(record.cycled.length === 0 ? [] : [{ name: "ABS unit cycled", words: listed(record.cycled) }]),
    ...record.air.map(({ words, says }) => ({ name: "Air", words: say(`${words}: ${says}`, givenNames(record)) })),
  ];
}

function endLines(record: BenchRecord): readonly Line[] {
  const because = (reason: string | null): string => (reason === null ? "" : `, ${reason}`);
  return [
    ...record.ends.map((one) => ({
      name: capital(one.end),
      words: `${momentShown(one.at)}, ${one.who}${because(one.reason)}`,
    })),
    ...record.follow_ups.map((one) => ({
      name: `${capital(one.id)} recheck`,
      words: `${one.answer ?? "not answered"}${because(one.reason)}${one.due_at === null ? "" : `; due ${momentShown(one.due_at)}`}`,
    })),
  ];
}

function noteLines(record: BenchRecord): readonly Line[] {
  return [
    ...record.measured.map((one) => ({ name: capital(one.what), words: `${plain(one.value)} ${one.unit}` })),
    ...record.notes.map(({ text }) => ({ name: "Note", words: text })),
    ...record.photos.map(({ name }) => ({ name: "Photo", words: name })),
    ...doubtWords(record).map((words) => ({ name: "Doubt", words: say(words) })),
  ];
}

/** Who signed; where nobody did, room for a name on paper. */
function Signed({ record }: { record: BenchRecord }): ComponentChild {
  const since = sinceSigned(record);
  if (record.signatures.length === 0) {
    return (
      <div class="record-signed">
        <p class="not-printed">
          <strong>Not signed.</strong> It is signed by name at the bench once the job is closed or given up.
        </p>
        <p class="record-line only-printed">
          <span>Signed by</span>
          <span>on</span>
        </p>
      </div>
    );
  }
  return (
    <div class="record-signed">
      <p>
        <strong>Signed by</strong> {record.signatures.map(signerWords).join("; ")}
      </p>
      {since === 0 ? null : (
        <p>{since === 1 ? "One correction came" : `${since} corrections came`} after the last signature.</p>
      )}
    </div>
  );
}
