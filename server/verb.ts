import type { z } from "@hono/zod-openapi";
import type { Outcome } from "../model/limits.ts";
import { check } from "./check.ts";
import { type ErrorBody, invalidRequest } from "./problem.ts";
import { readJson } from "./read-json.ts";
import { readText } from "./read-text.ts";

/** An answer that was written as JSON elsewhere already. */
export class JsonText {
  readonly bytes: Uint8Array<ArrayBuffer>;

  constructor(bytes: Uint8Array<ArrayBuffer>) {
    this.bytes = bytes;
  }
}

/**
 * The model's function: at once, or later and perhaps written as JSON where it was worked out in another thread. `signal`
 * says that nobody waits for the answer any more: what takes seconds stops.
 */
export type Answering<Question, Answer> = (
  question: Question,
  signal?: AbortSignal,
) => Outcome<Answer> | Promise<Outcome<Answer | JsonText>>;

/** One question that the API and the command line answer alike: its schema, and the model's function. */
export interface Verb<Question, Answer> {
  readonly schema: z.ZodType<Question>;
  readonly answer: Answering<Question, Answer>;
  /** Objects and lists that the request may hold; absent = the usual number. */
  readonly maxParts?: number;
}

export type Reply<Answer> =
  | { readonly ok: true; readonly value: Answer | JsonText }
  | { readonly ok: false; readonly body: ErrorBody };

/** What is sent of an answer. */
export function jsonOfAnswer(answer: unknown): string | Uint8Array<ArrayBuffer> {
  return answer instanceof JsonText ? answer.bytes : JSON.stringify(answer);
}

/** From the bytes of a request to the model's answer, or to the error that says what was wrong with them. */
export async function ask<Question, Answer>(
  verb: Verb<Question, Answer>,
  bytes: Uint8Array | ArrayBuffer,
  signal?: AbortSignal,
): Promise<Reply<Answer>> {
  const text = readText(bytes, "");
  if (!text.ok) return { ok: false, body: invalidRequest(text.issues) };
  const json = readJson(text.value, "", verb.maxParts);
  if (!json.ok) {
    const notJson = json.issues.some((issue) => issue.code === "invalid-json");
    return { ok: false, body: invalidRequest(json.issues, notJson ? "invalid-json" : "invalid-request") };
  }
  const question = check(verb.schema, json.value);
  if (!question.ok) return { ok: false, body: invalidRequest(question.issues) };
  const answer = await verb.answer(question.value, signal);
  return answer.ok ? answer : { ok: false, body: invalidRequest(answer.issues) };
}
