// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { jobPath } from "../../api/jobs";
import { LinkButton } from "../../ui/LinkButton";
import { BringHome } from "./BringHome";

/** The job as one file for where no network is, and the way back. */
export function Carry({ job }: { readonly job: string }): ComponentChild {
  return (
    <>
      <p>
        Out of reach of this computer the job goes on in one file: save it on the phone, open it there, work, and bring its taps
        home. Do not go on here meanwhile.
      </p>
      <div class="taps">
        <LinkButton href={`${jobPath(job)}/page`} download>
          Take the job as one page
        </LinkButton>
      </div>
      <BringHome job={job} />
    </>
  );
}
