// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { render, screen, waitFor } from "@testing-library/preact";
import type { ComponentChildren } from "preact";
import { expect, test } from "vitest";

import { Shell } from "./Shell";

function page(children: ComponentChildren): ComponentChildren {
  return <Shell here="machines">{children}</Shell>;
}

const row = (
  <p key="row">
    <button type="button">Go</button>
  </p>
);

test("when the button under the focus goes away, the notice that comes gets it", async () => {
  const { rerender } = render(page(<section>{row}</section>));
  screen.getByText("Go").focus();
  rerender(page(<section><div key="said" class="notice">Done</div></section>));
  await waitFor(() => expect(document.activeElement).toBe(screen.getByText("Done")));
});

test("without a notice the nearest thing to press gets it", async () => {
  const other = <a key="far" href="#/far">Far</a>;
  const near = (rest: ComponentChildren) => page(<div>{other}<section>{rest}<a key="near" href="#/near">Near</a></section></div>);
  const { rerender } = render(near(row));
  screen.getByText("Go").focus();
  rerender(near(null));
  await waitFor(() => expect(document.activeElement).toBe(screen.getByText("Near")));
});

test("a page that places the focus itself is not overruled", async () => {
  const { rerender } = render(page(<section>{row}</section>));
  screen.getByText("Go").focus();
  rerender(page(<section><input key="box" aria-label="Box" /><div class="notice">Said</div></section>));
  screen.getByLabelText("Box").focus();
  await new Promise((go) => setTimeout(go, 120));
  expect(document.activeElement).toBe(screen.getByLabelText("Box"));
});

test("whoever left the button by themselves is left alone", async () => {
  const { rerender } = render(page(<section>{row}</section>));
  screen.getByText("Go").focus();
  screen.getByText("Go").blur();
  await new Promise((go) => setTimeout(go, 10));
  rerender(page(<section><div key="said" class="notice">Done</div></section>));
  await new Promise((go) => setTimeout(go, 120));
  expect(document.activeElement).toBe(document.body);
});
