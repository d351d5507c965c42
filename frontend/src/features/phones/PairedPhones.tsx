// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useState } from "preact/hooks";

import { takeOff, type Phone } from "../../api/phones";
import { dayShown, sinceShown } from "../../display";
import { isGone, type Failure } from "../../lib/request";
import { Button } from "../../ui/Button";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { Notice } from "../../ui/Notice";

interface Props {
  readonly phones: readonly Phone[];
  readonly onTakenOff: () => void;
}

/** The phones there are. An unpaired one needs a new code, so a second tap confirms it. */
export function PairedPhones({ phones, onTakenOff }: Props): ComponentChild {
  const [asked, setAsked] = useState<string | null>(null);
  const [gone, setGone] = useState<string | null>(null);
  const [failure, setFailure] = useState<Failure | null>(null);
  const unpair = (phone: Phone): void => {
    setFailure(null);
    void takeOff(phone.id).then((answer) => {
      if (!answer.ok && !isGone(answer.reason)) {
        setFailure(answer.reason);
        return;
      }
      setAsked(null);
      setGone(phone.name);
      onTakenOff();
    });
  };
  return (
    <>
      {failure ? <ErrorNotice failure={failure} kept="The phone is still paired." /> : null}
      {gone === null ? null : (
        <Notice kind="done" title={`Unpaired: ${gone}`}>
          <p>Nothing is answered to it from now on. Taps that wait on it stay on it until it is paired again.</p>
        </Notice>
      )}
      {phones.length === 0 ? (
        <p>No phone is paired.</p>
      ) : (
        <ul class="phones">
          {phones.map((phone) => (
            <li key={phone.id} class="phone">
              <p class="phone-words">
                <strong>{phone.name}</strong>
                <span>
                  paired on {dayShown(phone.made_at)}, last seen {sinceShown(phone.seen_at)}
                </span>
              </p>
              {asked === phone.id ? (
                <div class="row" role="group" aria-label={`Unpair ${phone.name}?`}>
                  <Button kind="stop" onClick={() => unpair(phone)}>
                    Yes, unpair it
                  </Button>
                  <Button onClick={() => setAsked(null)}>Keep it</Button>
                </div>
              ) : (
                <Button onClick={() => setAsked(phone.id)}>
                  Unpair<span class="only-heard"> {phone.name}</span>
                </Button>
              )}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
