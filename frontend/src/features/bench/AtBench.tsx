// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import type { Failure } from "../../lib/request";
import { to } from "../../routes";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Field } from "../../ui/Field";
import { LinkButton } from "../../ui/LinkButton";
import { Screen } from "../../ui/Screen";
import { Wait } from "../../ui/Wait";
import { Bench } from "./Bench";
import { MainBar } from "./MainBar";
import { openSession, type Session } from "./session";
import { deviceName, keepSettings, who } from "./settings";
import "./bench.css";

/** A job, opened on this device; whoever taps says a name once. */
export function AtBench({ id }: { readonly id: string }): ComponentChild {
  const [name, setName] = useState(who.value);
  useEffect(keepSettings, []);
  return name === "" ? <WhoIsThere onName={setName} /> : <Opening key={name} id={id} name={name} />;
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

function Opening({ id, name }: { id: string; name: string }): ComponentChild {
  const [session, setSession] = useState<Session | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [turn, setTurn] = useState(0);
  useEffect(() => {
    let isOver = false;
    setFailure(null);
    void openSession(id, { who: name, device: deviceName() }).then((opened) => {
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
