// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { render } from "preact";

import { followDisplay } from "../display";
import { Notice } from "../ui/Notice";
import { Screen } from "../ui/Screen";
import { readCarried } from "./document";
import { Page } from "./Page";
import "../styles/tokens.css";
import "../styles/base.css";
import "../styles/components.css";

const place = document.querySelector("#app");
if (place === null) throw new Error("the page has no place for the job");
followDisplay();
const page = readCarried(document.querySelector("#carried-job")?.textContent);
render(
  page.ok ? (
    <Page page={page.value} />
  ) : (
    <main id="main">
      <Screen title="This page cannot be used">
        <Notice kind="stop" title="Its job cannot be read">
          <p>{page.reason}. Take the page from the app once more.</p>
        </Notice>
      </Screen>
    </main>
  ),
  place,
);
