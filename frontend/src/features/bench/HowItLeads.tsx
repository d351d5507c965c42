// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useState } from "preact/hooks";

import { Switch } from "../../ui/Switch";
import { keyName } from "./keys";
import { Tap } from "./MainBar";
import { buzz, keys, pace, tapped, tone, voice } from "./settings";
import type { Session } from "./session";
import { localVoice, wakeSound } from "./sound";
import { Stepper } from "./Stepper";

const MOST_S = 60;

/** How the bench leads: tone, voice, vibration, pace, keys. */
export function HowItLeads({ session }: { readonly session: Session }): ComponentChild {
  const { pace_s: usual } = session.sheet;
  const hasVoice = useVoices();
  return (
    <div class="ask">
      <Switch
        label="Tones"
        on={tone.value}
        onChange={(on) => {
          tone.value = on;
          wakeSound();
        }}
      />
      {hasVoice ? (
        <Switch label="Voice" hint="spoken on this device, nothing is sent away" on={voice.value} onChange={(on) => (voice.value = on)} />
      ) : (
        <p class="soft">No voice that speaks on this device itself was found, so none is offered.</p>
      )}
      <Switch label="Vibration" hint="where the device can" on={buzz.value} onChange={(on) => (buzz.value = on)} />
      {usual === null ? null : (
        <>
          <Switch
            label="Tap every stroke"
            hint="no rhythm: the bar counts one stroke a press"
            on={tapped.value}
            onChange={(on) => (tapped.value = on)}
          />
          <Stepper
            label={`Seconds a stroke (usual for this technique: ${usual.low} to ${usual.high})`}
            value={pace.value ?? Math.round((usual.low + usual.high) / 2)}
            unit="s"
            least={2}
            most={MOST_S}
            steps={[1, 3]}
            onChange={(seconds) => (pace.value = seconds)}
          />
        </>
      )}
      <Keys />
    </div>
  );
}

/** Voices may come late: browsers load them after the page. */
function useVoices(): boolean {
  const [has, setHas] = useState(() => localVoice() !== null);
  useEffect(() => {
    if (!("speechSynthesis" in globalThis)) return;
    const look = (): void => setHas(localVoice() !== null);
    speechSynthesis.addEventListener("voiceschanged", look);
    return () => speechSynthesis.removeEventListener("voiceschanged", look);
  }, []);
  return has;
}

const CAN_BE_LEARNT = /^(?!Tab$|Escape$|Shift$|Control$|Alt$|Meta$).+$/;

function Keys(): ComponentChild {
  const [learning, setLearning] = useState<"main" | "undo" | null>(null);
  useEffect(() => {
    if (learning === null) return;
    const learn = (event: KeyboardEvent): void => {
      event.preventDefault();
      event.stopPropagation();
      if (event.key === "Escape") setLearning(null);
      if (!CAN_BE_LEARNT.test(event.key)) return;
      const other = learning === "main" ? "undo" : "main";
      keys.value = {
        ...keys.value,
        [learning]: [event.key],
        [other]: keys.value[other].filter((key) => key !== event.key),
      } as typeof keys.value;
      setLearning(null);
    };
    window.addEventListener("keydown", learn, { capture: true });
    return () => window.removeEventListener("keydown", learn, { capture: true });
  }, [learning]);
  return (
    <section>
      <h2>Keys and foot pedals</h2>
      <p>
        A pedal types like a keyboard. The great bar: {keys.value.main.map(keyName).join(", ")}. Undo:{" "}
        {keys.value.undo.map(keyName).join(", ") || "no key"}.
      </p>
      <div class="taps" data-keys-own>
        <Tap pressed={learning === "main"} onPress={() => setLearning("main")}>
          {learning === "main" ? "Press the pedal now" : "Set the bar's key"}
        </Tap>
        <Tap pressed={learning === "undo"} onPress={() => setLearning("undo")}>
          {learning === "undo" ? "Press the pedal now" : "Set the undo key"}
        </Tap>
      </div>
    </section>
  );
}
