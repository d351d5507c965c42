// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import { listPhones, offerPairing, type Offer } from "../../api/phones";
import type { Failure } from "../../lib/request";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Load } from "../../ui/Load";
import { Notice } from "../../ui/Notice";
import { useResource } from "../../ui/resource";
import { PairedPhones } from "./PairedPhones";
import { ShownCode } from "./ShownCode";

const LOOK_AGAIN_MS = 2000;
const SECOND_MS = 1000;

/** The offer on the screen, and since when: a phone made later has used it. */
interface Shown {
  readonly offer: Offer;
  readonly since: number;
}

/** At the laptop: a code for the next phone, and the phones there are. */
export function Workshop({ address }: { readonly address: string | null }): ComponentChild {
  const list = useResource((signal) => listPhones(signal), []);
  const [shown, setShown] = useState<Shown | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [joined, setJoined] = useState<string | null>(null);
  const newest = shown && list.value?.phones.find((phone) => Date.parse(phone.made_at) >= shown.since);
  useEffect(() => {
    if (!newest) return;
    setJoined(newest.name);
    setShown(null);
  }, [newest]);
  const isWaiting = shown !== null;
  useEffect(() => {
    if (!isWaiting) return;
    const timer = setInterval(list.again, LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, [isWaiting, list.again]);
  const takenOff = (): void => {
    setJoined(null);
    list.again();
  };
  const show = (): void => {
    setFailure(null);
    setJoined(null);
    // this page is on the computer that keeps the phones: one clock, told to the second
    const since = SECOND_MS * Math.floor(Date.now() / SECOND_MS);
    void offerPairing().then((answer) => {
      if (answer.ok) setShown({ offer: answer.value, since });
      else setFailure(answer.reason);
    });
  };
  return (
    <>
      <section class="phones-part" aria-labelledby="pair">
        <h2 id="pair">Pair a phone</h2>
        {address === null ? <NoNetwork /> : null}
        {failure ? <ErrorNotice failure={failure} onAgain={show} /> : null}
        {joined === null ? null : <Joined name={joined} />}
        {address === null ? null : shown ? (
          <ShownCode key={shown.offer.code} offer={shown.offer} onAgain={show} />
        ) : (
          <>
            <p>The phone must be in the same network as this laptop. Its camera reads the code, or somebody types it.</p>
            <Button kind="do" onClick={show}>
              {joined === null ? "Show a code" : "Show a code for another phone"}
            </Button>
          </>
        )}
      </section>
      <section class="phones-part" aria-labelledby="paired">
        <h2 id="paired">Paired phones</h2>
        <Load of={list} doing="Looking for the phones">
          {(found) => <PairedPhones phones={found.phones} onTakenOff={takenOff} />}
        </Load>
      </section>
    </>
  );
}

function Joined({ name }: { name: string }): ComponentChild {
  return (
    <Notice kind="done" title={`Paired: ${name}`}>
      <p>The code is used up. The phone stays paired for a year, or until you unpair it.</p>
    </Notice>
  );
}

function NoNetwork(): ComponentChild {
  return (
    <Notice kind="note" title="No phone can reach this laptop now">
      <p>
        It answers itself only. Stop firmlever with Ctrl+C in its terminal window, then start it so that it answers paired
        phones of your own network too:
      </p>
      <p>
        <code>firmlever serve --lan</code>
      </p>
    </Notice>
  );
}
