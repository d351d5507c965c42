// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import type { Failure } from "../../lib/request";
import type { Result } from "../../lib/result";
import { to } from "../../routes";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Field } from "../../ui/Field";
import { LinkButton } from "../../ui/LinkButton";
import { Screen } from "../../ui/Screen";
import { Wait } from "../../ui/Wait";
import { Bench } from "./Bench";
import { MainBar } from "./MainBar";
import { openSession, type Hand, type Session } from "./session";
import { deviceName, keepSettings, who } from "./settings";
import "./bench.css";

type Open = (id: string, hand: Hand) => Promise<Result<Session, Failure>>;

interface Props {
  readonly id: string;
  /** How the job is opened, where that is not by asking the laptop. */
  readonly open?: Open;
}

const fromTheLaptop: Open = (id, hand) => openSession(id, hand);

/** A job, opened on this device; whoever taps says a name once. */
export function AtBench({ id, open = fromTheLaptop }: Props): ComponentChild {
  const [name, setName] = useState(who.value);
  useEffect(keepSettings, []);
  return name === "" ? <WhoIsThere onName={setName} /> : <Opening key={name} {...{ id, name, open }} />;
}

function WhoIsThere({ onName }: { onName: (name: string) => void }): ComponentChild {
  const [typed, setTyped] = useState("");
  const given = typed.trim().slice(0, 60);
  return (
    <Screen title="Who is at the bench?" lead="The name stands beside every tap in the record.">
      <Field label="Name" value={typed} onInput={setTyped} />
      <div class="bench">
        <MainBar
          title="Go on"
          disabled={given === ""}
          onPress={() => {
            who.value = given;
            onName(given);
          }}
        />
      </div>
    </Screen>
  );
}

function Opening({ id, name, open }: { id: string; name: string; open: Open }): ComponentChild {
  const [session, setSession] = useState<Session | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [turn, setTurn] = useState(0);
  useEffect(() => {
    let isOver = false;
    setFailure(null);
    void open(id, { who: name, device: deviceName() }).then((opened) => {
      if (isOver) return;
      if (opened.ok) setSession(opened.value);
      else setFailure(opened.reason);
    });
    return () => {
      isOver = true;
    };
  }, [id, name, turn]);
  if (session !== null) return <Bench session={session} />;
  if (failure === null) return <Wait doing="Fetching the job" />;
  return (
    <Screen title="The job could not be opened">
      <ErrorNotice failure={failure} onAgain={() => setTurn(turn + 1)} />
      <div class="row">
        <LinkButton href={to.jobs()}>To the jobs</LinkButton>
      </div>
    </Screen>
  );
}
