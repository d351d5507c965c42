// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { listJobs } from "../../api/jobs";
import { dayShown } from "../../display";
import { to } from "../../routes";
import { Load } from "../../ui/Load";
import { Screen } from "../../ui/Screen";
import { useResource } from "../../ui/resource";
import { BringHome } from "./BringHome";
import "./bench.css";
import "./jobs.css";

/** Every job, the latest first; an open one can be continued on any device. */
export function Jobs(): ComponentChild {
  const jobs = useResource((signal) => listJobs(signal), []);
  return (
    <Screen title="Jobs at the bench" lead="Open one to go on with it, or to watch it from here.">
      <Load of={jobs} doing="Looking for the jobs">
        {({ jobs: found }) =>
          found.length === 0 ? (
            <p>No job was started yet. Open a machine, make a plan, and start from there.</p>
          ) : (
            <ul class="jobs">
              {found
                .toSorted((one, other) => (one.made_at < other.made_at ? 1 : -1))
                .map((job) => (
                  <li key={job.id}>
                    <a class="job" href={to.job(job.id)}>
                      <strong>
                        {job.bike} · {job.circuit}
                      </strong>
                      <span>
                        {job.phase} · {dayShown(job.made_at)}
                      </span>
                    </a>
                  </li>
                ))}
            </ul>
          )
        }
      </Load>
      <section class="jobs-home" aria-label="Carried pages">
        <p>Was a job carried out of reach as one page?</p>
        <BringHome job={null} />
      </section>
    </Screen>
  );
}
