// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import type { ComponentChild } from "preact";
import { useRef } from "preact/hooks";

import type { Scene } from "../../../api/circuits";
import type { Outline } from "../../../api/machines";
import { previewOutline } from "../../../api/preview";
import { SceneView } from "../../../drawing/SceneView";
import { useResource } from "../../../ui/resource";

interface Props {
  readonly outline: Outline;
  readonly circuit: string;
}

const WITHOUT: Readonly<Record<string, string>> = {
  front: "A drum at the front so far: no fluid there, nothing to draw.",
  rear: "A drum at the rear so far: no fluid there, nothing to draw.",
  clutch: "No fluid in the clutch so far: nothing to draw.",
};

const TITLES: Readonly<Record<string, string>> = {
  front: "The front brake",
  rear: "The rear brake",
  clutch: "The clutch",
};

/** The circuit as it looks after the answers so far; what an answer just added stands out. */
export function DraftDrawing({ outline, circuit }: Props): ComponentChild {
  const drawn = useResource((signal) => previewOutline(outline, signal), [JSON.stringify(outline)]);
  const scene = drawn.value?.scenes.find((one) => one.circuit === circuit)?.scene;
  const added = useAdded(circuit, scene);
  if (drawn.value === null) {
    return drawn.failure ? <p class="soft">The drawing comes when the server answers.</p> : null;
  }
  const others = drawn.value.scenes.map((one) => one.circuit).filter((name) => name !== circuit);
  return (
    <figure class="draft">
      {scene ? <SceneView scene={scene} highlight={added} /> : null}
      <figcaption class="draft-caption soft">
        {scene ? `${TITLES[circuit] ?? circuit} so far, by height.` : WITHOUT[circuit]}
        {others.length > 0 ? ` Also there: ${others.join(", ")}.` : null}
        {added.length > 0 ? <strong> Just added: {added.join(", ")}.</strong> : null}
      </figcaption>
    </figure>
  );
}

/** The parts that the last change of this circuit brought in. */
function useAdded(circuit: string, scene: Scene | undefined): readonly string[] {
  const seen = useRef<{ circuit: string; scene: Scene | undefined; added: readonly string[] }>({
    circuit: "",
    scene: undefined,
    added: [],
  });
  const last = seen.current;
  if (scene !== last.scene || circuit !== last.circuit) {
    const before = last.circuit === circuit ? last.scene : undefined;
    seen.current = { circuit, scene, added: before && scene ? newOwners(before, scene) : [] };
  }
  return seen.current.added;
}

function newOwners(before: Scene, after: Scene): readonly string[] {
  const known = new Set(before.parts.map((part) => part.owner));
  return after.parts.map((part) => part.owner).filter((owner) => !known.has(owner));
}
