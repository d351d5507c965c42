// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
/** The live picture, of the scenes that the server's own tests keep. */
import { render, screen } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";

import limpetFile from "../../../tests/snapshots/scene/limpet-front.json";
import remoteFile from "../../../tests/snapshots/scene/remote_anti_dive-front.json";
import skerryFile from "../../../tests/snapshots/scene/skerry-front.json";
import { scene as sceneFrom } from "../api/circuits";
import { measures, words } from "../display";
import { hexagon, markTexts, rounded, stepsOf } from "./geometry";
import { SceneView } from "./SceneView";

const skerry = sceneFrom(skerryFile, "");
const limpet = sceneFrom(limpetFile, "");
const remote = sceneFrom(remoteFile, "");

afterEach(() => {
  words.value = "uk";
  measures.value = "metric";
});

function count(root: Element, chosen: string): number {
  return root.querySelectorAll(chosen).length;
}

test.each([
  ["skerry", skerry],
  ["limpet", limpet],
  ["remote", remote],
])("%s: every part, line, screw and resting place is drawn where the scene has it", (_, scene) => {
  const { container } = render(<SceneView scene={scene} />);
  expect(count(container, ".scene-wall")).toBe(scene.lines.length);
  expect(count(container, "rect.scene-box")).toBe(scene.parts.length);
  expect(count(container, "polygon.scene-box")).toBe(scene.screws.length);
  expect(count(container, ".scene-air")).toBe(2 * scene.resting.length);
  const names = [...container.querySelectorAll(".scene-name")];
  expect(names.map((name) => name.textContent)).toEqual(scene.parts.map((part) => part.label.text));
  const boxes = [...container.querySelectorAll("rect.scene-box")];
  expect(boxes.map((box) => Number(box.getAttribute("y")))).toEqual(scene.parts.map((part) => part.y));
});

test("the picture is told in the scene's own words", () => {
  const { container } = render(<SceneView scene={skerry} />);
  expect(screen.getByRole("img")).toBeTruthy();
  expect(container.querySelector("desc")?.textContent).toBe(skerry.words.join(" "));
});

test("without shares nothing is filled", () => {
  const { container } = render(<SceneView scene={skerry} />);
  expect(count(container, ".scene-new, .scene-fluid, [clip-path]")).toBe(0);
});

test("old fluid fills a part from below by its share, hatched, and is told", () => {
  const { container } = render(<SceneView scene={skerry} shares={{ "abs unit": 0.5 }} />);
  const [old, ...others] = container.querySelectorAll("[clip-path]");
  const part = skerry.parts.find(({ owner }) => owner === "abs unit");
  expect(others).toEqual([]);
  expect(Number(old?.getAttribute("height"))).toBeCloseTo(((part?.height ?? 0) - 4.4) / 2, 6);
  const bottom = Number(old?.getAttribute("y")) + Number(old?.getAttribute("height"));
  expect(bottom).toBeCloseTo((part?.y ?? 0) + (part?.height ?? 0) - 2.2, 6);
  const hatch = /^url\(#(.*)\)$/.exec(old?.getAttribute("fill") ?? "")?.[1] ?? "";
  expect(container.querySelector(`[id="${hatch}"] .scene-hatch`)).toBeTruthy();
  expect(container.querySelector("desc")?.textContent).toContain("Old fluid stays in 50 % of the abs unit.");
});

test.each([
  [0.05, /^var\(--fluid-new\)$/],
  [0.2, /-mixed\)$/],
  [0.7, /-old\)$/],
])("a line with %d of old fluid", (share, paint) => {
  const owner = "master > abs unit";
  const { container } = render(<SceneView scene={skerry} shares={{ [owner]: share }} />);
  const at = skerry.lines.findIndex((line) => line.owner === owner);
  expect(container.querySelectorAll(".scene-fluid")[at]?.getAttribute("stroke")).toMatch(paint);
});

test("new shares recolour the picture and move nothing", () => {
  const { container, rerender } = render(<SceneView scene={remote} shares={{ "left caliper": 0.9 }} />);
  const places = (): readonly (string | null)[] =>
    [...container.querySelectorAll(".scene-wall, .scene-box, text")].map(
      (one) => one.getAttribute("d") ?? one.getAttribute("points") ?? `${one.getAttribute("x")} ${one.getAttribute("y")}`,
    );
  const before = places();
  rerender(<SceneView scene={remote} shares={{ "right caliper": 0.1 }} />);
  expect(places()).toEqual(before);
});

test("screws carry the steps in which they are worked", () => {
  const { container } = render(<SceneView scene={skerry} order={["right caliper", "left caliper", "right caliper"]} />);
  const steps = [...container.querySelectorAll(".scene-step")].map((step) => step.textContent);
  expect(steps).toEqual(skerry.screws.map(({ screw }) => (screw === "left caliper" ? "2" : "1·3")));
  expect(stepsOf([])).toEqual(new Map());
});

test("what is pointed out is so by a class, part, line or screw", () => {
  const { container } = render(
    <SceneView scene={skerry} highlight={["abs unit", "pot > master", "screw:left caliper"]} />,
  );
  expect(count(container, ".scene-pointed")).toBe(3);
});

test("usual heights are dashed, measured ones are not", () => {
  expect(count(render(<SceneView scene={limpet} />).container, ".scene-usual")).toBe(limpet.parts.length);
  expect(count(render(<SceneView scene={skerry} />).container, ".scene-usual")).toBe(0);
});

test("two pictures on one page share no id, and none carries a style of its own", () => {
  const { container } = render(
    <>
      <SceneView scene={skerry} shares={{}} />
      <SceneView scene={skerry} shares={{}} />
    </>,
  );
  const ids = [...container.querySelectorAll("[id]")].map((one) => one.id);
  expect(new Set(ids).size).toBe(ids.length);
  expect(count(container, "[style], style")).toBe(0);
});

test("corners are rounded no further than their stretches allow", () => {
  const run = rounded([
    [0, 0],
    [100, 0],
    [100, 10],
    [200, 10],
  ]);
  expect(run).toBe("M0 0L95 0Q100 0 100 5L100 5Q100 10 105 10L200 10");
  expect(rounded([])).toBe("");
});

test("a hexagon has its six corners around its point", () => {
  const corners = hexagon([50, 60]).split(" ").map((corner) => corner.split(",").map(Number));
  expect(corners).toHaveLength(6);
  for (const [x = 0, y = 0] of corners) expect(Math.hypot(x - 50, y - 60)).toBeCloseTo(11, 9);
});

test("the highest round mark carries the unit", () => {
  const marks = [500, 750, 1000].map((height_mm) => ({ height_mm, y: 0 }));
  expect(markTexts(marks)).toEqual(["0.5", "0.75", "1.0 m"]);
});

test("with imperial measures the heights are inches, in the picture and in what is told", () => {
  measures.value = "imperial";
  const { container } = render(<SceneView scene={skerry} />);
  // derived: 1000 mm / 25.4 mm = 39.4 in, 1060 mm = 41.7 in
  expect([...container.querySelectorAll(".scene-soft")].map((mark) => mark.textContent)).toContain("39 in");
  expect(container.querySelector("desc")?.textContent).toContain("The pot stands highest, at 42 in.");
  expect(container.textContent).not.toMatch(/\d m\b/);
});

test("American words are told and shown, but a part keeps the name it was given", () => {
  words.value = "us";
  const named = JSON.parse(JSON.stringify(skerryFile).replaceAll("left caliper", "disc end")) as unknown;
  const scene = sceneFrom(named, "");
  const told = { ...scene, words: ["The disc end has a bleed nipple.", "A hose leads on."] };
  const resting = scene.resting.map((place) => ({ ...place, label: { ...place.label, text: "air in the hose" } }));
  const { container } = render(<SceneView scene={{ ...told, resting }} />);
  expect(container.querySelector("desc")?.textContent).toBe("The disc end has a bleeder screw. A line leads on.");
  expect(container.querySelector(".scene-do")?.textContent).toBe("air in the line");
  expect(screen.getByText("disc end")).toBeTruthy();
});
