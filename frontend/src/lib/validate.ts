// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0
import { done, failed, type Result } from "./result";

/** Turns what came from outside into a known type, or throws a Misfit that names the place. */
export type Check<Value> = (value: unknown, place: string) => Value;

/** The type a check lets through. */
export type Of<C> = C extends Check<infer Value> ? Value : never;

/** Something from outside that is not what was agreed. */
export class Misfit extends Error {
  constructor(place: string, expected: string, found: unknown) {
    super(`${place || "the answer"} should be ${expected} and is ${kindOf(found)}`);
    this.name = "Misfit";
  }
}

function kindOf(value: unknown): string {
  if (value === null) return "null";
  if (value === undefined) return "missing";
  if (Array.isArray(value)) return "a list";
  return typeof value === "object" ? "an object" : JSON.stringify(value);
}

export function validate<Value>(check: Check<Value>, value: unknown): Result<Value, Misfit> {
  try {
    return done(check(value, ""));
  } catch (problem) {
    if (problem instanceof Misfit) return failed(problem);
    throw problem;
  }
}

export const text: Check<string> = (value, place) => {
  if (typeof value !== "string") throw new Misfit(place, "a text", value);
  return value;
};

export const number: Check<number> = (value, place) => {
  if (typeof value !== "number" || !Number.isFinite(value)) throw new Misfit(place, "a number", value);
  return value;
};

export const whole: Check<number> = (value, place) => {
  if (!Number.isInteger(value)) throw new Misfit(place, "a whole number", value);
  return number(value, place);
};

export const yesNo: Check<boolean> = (value, place) => {
  if (typeof value !== "boolean") throw new Misfit(place, "true or false", value);
  return value;
};

export function oneOf<const Values extends readonly (string | number)[]>(
  ...values: Values
): Check<Values[number]> {
  return (value, place) => {
    const found = values.find((one) => one === value);
    if (found === undefined) throw new Misfit(place, `one of ${values.join(", ")}`, value);
    return found;
  };
}

export function orNull<Value>(check: Check<Value>): Check<Value | null> {
  return (value, place) => (value === null ? null : check(value, place));
}

/** For a key that older documents lack. */
export function orElse<Value>(check: Check<Value>, missing: Value): Check<Value> {
  return (value, place) => (value === undefined ? missing : check(value, place));
}

export function listOf<Value>(check: Check<Value>): Check<readonly Value[]> {
  return (value, place) => {
    if (!Array.isArray(value)) throw new Misfit(place, "a list", value);
    return value.map((item, position) => check(item, `${place}[${position}]`));
  };
}

export function pairOf<First, Second>(
  first: Check<First>,
  second: Check<Second>,
): Check<readonly [First, Second]> {
  return (value, place) => {
    if (!Array.isArray(value) || value.length !== 2) throw new Misfit(place, "a pair", value);
    return [first(value[0], `${place}[0]`), second(value[1], `${place}[1]`)];
  };
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** An object with names as keys, every value of one kind. */
export function mapOf<Value>(check: Check<Value>): Check<Readonly<Record<string, Value>>> {
  return (value, place) => {
    if (!isObject(value)) throw new Misfit(place, "an object", value);
    return Object.fromEntries(
      Object.entries(value).map(([name, entry]) => [name, check(entry, within(place, name))]),
    );
  };
}

type Checks = Readonly<Record<string, Check<unknown>>>;
type Checked<Fields extends Checks> = { readonly [Name in keyof Fields]: Of<Fields[Name]> };

/** An object with fixed keys; keys that nobody agreed on are left behind. */
export function record<Fields extends Checks>(fields: Fields): Check<Checked<Fields>> {
  return (value, place) => {
    if (!isObject(value)) throw new Misfit(place, "an object", value);
    return Object.fromEntries(
      Object.entries(fields).map(([name, check]) => [name, check(value[name], within(place, name))]),
    ) as Checked<Fields>;
  };
}

/** All that both records hold. */
export function both<First, Second>(first: Check<First>, second: Check<Second>): Check<First & Second> {
  return (value, place) => ({ ...first(value, place), ...second(value, place) });
}

/** The first of several kinds that fits. */
export function either<First, Second>(first: Check<First>, second: Check<Second>): Check<First | Second> {
  return (value, place) => {
    const tried = validate(first, value);
    return tried.ok ? tried.value : second(value, place);
  };
}

function within(place: string, name: string): string {
  return place ? `${place}.${name}` : name;
}
