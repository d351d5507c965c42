// SPDX-FileCopyrightText: The firmlever authors
// SPDX-License-Identifier: Apache-2.0

/** Phones that may use the app over the network: pair one, list them, take one off. */
import { nothing, request, type Answer } from "../lib/request";
import { listOf, record, text, type Of } from "../lib/validate";

const phone = record({ id: text, name: text, made_at: text, seen_at: text });
export type Phone = Of<typeof phone>;
const phones = record({ phones: listOf(phone) });

/** A code that pairs one phone for a short time. */
const offer = record({ code: text, expires_at: text, address: text, qr_svg: text });
export type Offer = Of<typeof offer>;

export function listPhones(signal?: AbortSignal): Answer<Of<typeof phones>> {
  return request("/api/phones", { check: phones, signal });
}

export function offerPairing(): Answer<Offer> {
  return request("/api/pairing", { method: "POST", check: offer });
}

export function takeOff(id: string): Answer<null> {
  return request(`/api/phones/${encodeURIComponent(id)}`, { method: "DELETE", check: nothing });
}
