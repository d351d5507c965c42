// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { markGood, type LeverLine, type LeverList } from "../../api/levers";
import { dayShown, middleAmount, momentShown, shown, unit } from "../../display";
import type { Failure } from "../../lib/request";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Select } from "../../ui/Select";
import { Table } from "../../ui/Table";
import { Unfold } from "../../ui/Unfold";
import { figures } from "./figures";
import { along, ticks } from "./scale";

interface Props {
  readonly machine: string;
  readonly circuit: string;
  readonly list: LeverList;
  readonly who: string;
  readonly onShow: (id: string) => void;
  readonly onChanged: () => void;
}

const [WIDTH, LEFT, RIGHT, TOP, BOTTOM] = [320, 44, 308, 24, 156];

/** The air that a kept test found, after the work where it was read then. */
export function airOf(line: LeverLine): LeverLine["air_ml"] {
  return line.air_after_ml ?? line.air_ml;
}

/** How the air went from test to test, with the good state as a line. */
export function Kept(props: Props): ComponentChild {
  const { list } = props;
  if (list.tests.length === 0) return null;
  const good = list.tests.find(({ id }) => id === list.baseline) ?? null;
  return (
    <section class="lever-part" aria-labelledby="lever-kept">
      <h2 id="lever-kept">Kept tests</h2>
      {list.tests.length > 1 ? <Drift tests={list.tests} good={good} /> : null}
      <Table
        caption="Air at each kept test, the newest first"
        columns={[{ head: "When" }, { head: `Air, ${unit("ml")}`, isFigure: true }]}
        rows={list.tests.toReversed().map((one) => [
          <Named key={one.id} one={one} isGood={one.id === list.baseline} onShow={props.onShow} />,
          figures(airOf(one), "ml"),
        ])}
      />
      <Good {...props} good={good} />
    </section>
  );
}

function Named(props: { one: LeverLine; isGood: boolean; onShow: (id: string) => void }): ComponentChild {
  const { one, isGood, onShow } = props;
  return (
    <>
      <button type="button" class="link lever-link" onClick={() => onShow(one.id)}>
        {momentShown(one.made_at)}
      </button>
      <span class="lever-who">
        {one.who}
        {isGood ? ", the good state" : ""}
      </span>
    </>
  );
}

/** Mark a test as this machine's good state; earlier marks stay listed. */
function Good({ machine, circuit, list, who, onChanged, good }: Props & { good: LeverLine | null }): ComponentChild {
  const [chosen, setChosen] = useState(list.baseline ?? list.tests.at(-1)?.id ?? "");
  const [failure, setFailure] = useState<Failure | null>(null);
  const [isBusy, setBusy] = useState(false);
  const mark = async (): Promise<void> => {
    setBusy(true);
    const answer = await markGood(machine, circuit, chosen, who);
    setBusy(false);
    setFailure(answer.ok ? null : answer.reason);
    if (answer.ok) onChanged();
  };
  return (
    <Unfold summary={good === null ? "Mark one as this machine's good state" : `Good state: ${dayShown(good.made_at)}`}>
      <div class="lever-part">
        <p>Later tests are held against it. A mark can move; the old ones stay in the list below.</p>
        <Select
          label="Good state of this machine"
          value={chosen}
          onChange={setChosen}
          options={list.tests.toReversed().map((one) => ({ value: one.id, label: `${momentShown(one.made_at)}, ${middleAmount(airOf(one), "ml")}` }))}
        />
        {failure ? <ErrorNotice failure={failure} /> : null}
        <p class="row">
          <Button busy={isBusy} disabled={who === "" || chosen === list.baseline} onClick={() => void mark()}>
            Mark it
          </Button>
          {who === "" ? <span class="soft">Give your name with the first test you keep.</span> : null}
        </p>
        <ol class="lever-list">
          {list.baselines.toReversed().map((one) => (
            <li key={one.marked_at}>
              {momentShown(one.marked_at)}, {one.who}: the test of {dayShown(list.tests.find(({ id }) => id === one.test)?.made_at ?? "")}
            </li>
          ))}
        </ol>
      </div>
    </Unfold>
  );
}

function Drift({ tests, good }: { tests: readonly LeverLine[]; good: LeverLine | null }): ComponentChild {
  const most = Math.max(...tests.map((one) => shown(airOf(one).p95, "ml")));
  const up = ticks(most, 3);
  const end = up.at(-1) ?? 1;
  const y = (ml: number): number => along(Math.max(shown(ml, "ml"), 0), end, BOTTOM, TOP);
  const x = (place: number): number => along(place + 0.5, tests.length, LEFT, RIGHT);
  const [first, last] = [tests[0], tests.at(-1)];
  return (
    <figure class="lever-graph">
      <svg viewBox={`0 0 ${WIDTH} ${BOTTOM + 24}`} role="img" aria-label="Air from test to test with its bands; the table below holds the figures.">
        <text class="lever-axis" x={LEFT} y={TOP - 10}>{`air, ${unit("ml")}, test by test`}</text>
        <path class="lever-frame" d={`M${LEFT} ${TOP}V${BOTTOM}H${RIGHT}`} />
        {up.map((value) => (
          <text class="lever-axis lever-axis-up" key={value} x={LEFT - 6} y={y(0) + ((TOP - BOTTOM) * value) / end + 4}>
            {value}
          </text>
        ))}
        {good ? (
          <>
            <path class="lever-good" d={`M${LEFT} ${y(airOf(good).p50)}H${RIGHT}`} />
            <text class="lever-axis lever-axis-up lever-good-word" x={RIGHT} y={y(airOf(good).p50) - 5}>
              good state
            </text>
          </>
        ) : null}
        {tests.map((one, place) => (
          <g class="lever-drift" key={one.id}>
            <path d={`M${x(place)} ${y(airOf(one).p05)}V${y(airOf(one).p95)}M${x(place) - 5} ${y(airOf(one).p05)}h10M${x(place) - 5} ${y(airOf(one).p95)}h10`} />
            <circle cx={x(place)} cy={y(airOf(one).p50)} r="5" />
          </g>
        ))}
        <text class="lever-axis" x={LEFT} y={BOTTOM + 18}>
          {first ? dayShown(first.made_at) : ""}
        </text>
        <text class="lever-axis lever-axis-up" x={RIGHT} y={BOTTOM + 18}>
          {last ? dayShown(last.made_at) : ""}
        </text>
      </svg>
    </figure>
  );
}
