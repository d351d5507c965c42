// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { render } from "preact";

import { App } from "./app";
import { followDisplay } from "./display";
import { keepPages } from "./offline";
import "./styles/tokens.css";
import "./styles/base.css";
import "./styles/components.css";
import "./styles/print.css";

const place = document.querySelector("#app");
if (place === null) throw new Error("the page has no place for the app");
followDisplay();
render(<App />, place);
keepPages();
