// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";

import { ErrorNotice } from "./ErrorNotice";
import type { Resource } from "./resource";
import { Wait } from "./Wait";

interface Props<Value> {
  readonly of: Resource<Value>;
  /** What is being worked out: "Looking for the machines". */
  readonly doing: string;
  readonly children: (value: Value) => ComponentChild;
}

/** Shows what was fetched; before that the wait, and the failure above whatever is there. */
export function Load<Value>({ of: resource, doing, children }: Props<Value>): ComponentChild {
  return (
    <>
      {resource.failure ? <ErrorNotice failure={resource.failure} onAgain={resource.again} /> : null}
      {resource.value === null ? (
        resource.isAsking && !resource.failure ? <Wait doing={doing} /> : null
      ) : (
        children(resource.value)
      )}
    </>
  );
}
