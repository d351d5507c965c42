// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";

import { listJobs } from "../../api/jobs";
import { counted } from "../../lib/figures";
import type { Failure } from "../../lib/request";
import { to } from "../../routes";
import { ErrorNotice } from "../../ui/ErrorNotice";
import { FileButton } from "../../ui/FileButton";
import { LinkButton } from "../../ui/LinkButton";
import { Notice } from "../../ui/Notice";
import { bringHome, openTaps, type Homecoming } from "./home";
import "./home.css";

interface Props {
  /** The job that the file has to be of; null takes any. */
  readonly job: string | null;
}

type Told =
  | { readonly is: "nothing" }
  | { readonly is: "reading" }
  | { readonly is: "no taps"; readonly why: string }
  | { readonly is: "other job"; readonly id: string; readonly name: string }
  | { readonly is: "no such job" }
  | { readonly is: "failed"; readonly failure: Failure }
  | { readonly is: "home"; readonly job: string; readonly name: string; readonly what: Homecoming };

/** Take in the file of a carried page. */
export function BringHome({ job }: Props): ComponentChild {
  const [told, setTold] = useState<Told>({ is: "nothing" });
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // The bar at the foot of the bench would cover it.
    if (told.is !== "nothing") place.current?.scrollIntoView({ block: "center" });
  }, [told]);
  const choose = async (file: File): Promise<void> => {
    setTold({ is: "reading" });
    setTold(await broughtIn(file, job));
  };
  return (
    <div class="bring-home">
      <FileButton accept=".json,.txt,application/json,text/plain" onChosen={choose}>
        Bring a carried page home
      </FileButton>
      <div ref={place} class="bring-told">
        <Outcome told={told} isHere={job !== null} />
      </div>
    </div>
  );
}

async function broughtIn(file: File, job: string | null): Promise<Told> {
  const taps = await openTaps(file);
  if (!taps.ok) return { is: "no taps", why: taps.reason };
  const jobs = await listJobs();
  if (!jobs.ok) return { is: "failed", failure: jobs.reason };
  const found = jobs.value.jobs.find((one) => one.id === taps.value.job);
  if (found === undefined) return { is: "no such job" };
  const name = `${found.bike} · ${found.circuit}`;
  if (job !== null && job !== found.id) return { is: "other job", id: found.id, name };
  const what = await bringHome(taps.value);
  return what.ok ? { is: "home", job: found.id, name, what: what.value } : { is: "failed", failure: what.reason };
}

function Outcome({ told, isHere }: { told: Told; isHere: boolean }): ComponentChild {
  switch (told.is) {
    case "nothing":
      return null;
    case "reading":
      return <p role="status">Reading the file …</p>;
    case "no taps":
      return (
        <Notice kind="stop" title="That file was not brought in">
          <p>{told.why}</p>
        </Notice>
      );
    case "other job":
      return (
        <Notice kind="stop" title="These taps belong to another job">
          <p>They are of {told.name}. Nothing was brought in here. Open that job and bring the file in there.</p>
          <LinkButton href={to.job(told.id)}>To {told.name}</LinkButton>
        </Notice>
      );
    case "no such job":
      return (
        <Notice kind="stop" title="The job of these taps is not kept here">
          <p>The page came from another computer, or from another workshop folder on this one. Bring the file in there.</p>
        </Notice>
      );
    case "failed":
      return <ErrorNotice failure={told.failure} />;
    case "home":
      return <Home {...told} isHere={isHere} />;
  }
}

function Home(props: { job: string; name: string; what: Homecoming; isHere: boolean }): ComponentChild {
  const { fresh, there, refused, left, stopped } = props.what;
  return (
    <>
      {fresh + there > 0 || refused.length + left === 0 ? (
        <Notice kind="done" title={`${props.name}: ${homeWords(fresh, there)}`}>
          {props.isHere ? null : <LinkButton href={to.job(props.job)}>Open the job</LinkButton>}
        </Notice>
      ) : null}
      {refused.length > 0 ? (
        <Notice kind="stop" title={`${counted(String(refused.length), "tap")} refused`}>
          <ul class="refused">
            {refused.map((one, place) => (
              <li key={`${place} ${one.id}`}>
                {one.why} <span class="soft">{one.id}</span>
              </li>
            ))}
          </ul>
          <p>The file is as it was; keep it.</p>
        </Notice>
      ) : null}
      {left > 0 ? (
        <Notice kind="stop" title={`${counted(String(left), "tap")} not brought in yet`}>
          <p>Bring the same file in once more; what is there already is not kept twice.</p>
        </Notice>
      ) : null}
      {stopped === null ? null : <ErrorNotice failure={stopped} />}
    </>
  );
}

function homeWords(fresh: number, there: number): string {
  if (fresh === 0 && there === 0) return "the file holds no tap";
  if (fresh === 0) return `nothing new, all ${there} were here already`;
  const known = there === 0 ? "" : `, ${there} were here already`;
  return `${counted(String(fresh), "new tap")}${known}`;
}
