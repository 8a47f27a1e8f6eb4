import type { Fault } from "../../../domain/fault.ts";
import type { StoredEntry } from "../../../record/entry/index.ts";
import { gate, type Question } from "./gate.ts";
import { reach } from "./reach.ts";

/** What an error of the bench's carries. */
interface Problem {
  code: string;
  sentence: string;
  faults?: Fault[];
  existing?: StoredEntry;
  waitSeconds?: number;
}

/** What the bench answered instead of what was asked for. `status` 0: nothing answered. */
export class ApiError extends Error {
  readonly status: number;
  readonly code: string;
  readonly faults: readonly Fault[];
  /** The entry that stands in the way of a correction or an id. */
  readonly existing: StoredEntry | undefined;
  /** How long the bench wants nobody to try again; null where it does not say. */
  readonly waitSeconds: number | null;
  constructor(status: number, problem: Problem) {
    super(problem.sentence);
    this.name = "ApiError";
    this.status = status;
    this.code = problem.code;
    this.faults = problem.faults ?? [];
    this.existing = problem.existing;
    this.waitSeconds = problem.waitSeconds ?? null;
  }
}

export interface Ask {
  method?: "GET" | "POST" | "PUT" | "DELETE";
  /** Sent as JSON, or as it is where it is a form. */
  body?: unknown;
  signal?: AbortSignal;
  /** Asked by a clock and not by somebody at the page: it keeps no session from going idle. */
  unattended?: boolean;
  /** Not to be asked again after a sign-in or a confirmation: the refusal is the answer. */
  once?: boolean;
}

/** Asks the bench and reads its answer as JSON; undefined where it has nothing to say. @throws {ApiError} */
export async function ask<T>(path: string, request: Ask = {}): Promise<T> {
  const response = await answered(path, request);
  return (response.status === 204 ? undefined : await response.json()) as T;
}

/** Asks the bench for a file, such as a PDF. @throws {ApiError} */
export async function askFile(path: string, request: Ask = {}): Promise<Blob> {
  return (await askForFile(path, request)).blob;
}

/** A file with the name that the bench gives it. @throws {ApiError} */
export async function askForFile(
  path: string,
  request: Ask = {},
): Promise<{ blob: Blob; fileName: string | null }> {
  const response = await answered(path, request);
  const named = response.headers.get("content-disposition")?.match(/filename="([^"]+)"/);
  return { blob: await response.blob(), fileName: named?.[1] ?? null };
}

/** What somebody must do first where the bench refuses with this code. */
const questions: Record<string, Question> = { signInFirst: "signIn", confirmItIsYou: "confirm" };

/** Asks; where somebody must sign in or confirm first, waits until they have and asks the same again. */
async function answered(path: string, request: Ask): Promise<Response> {
  const response = await sent(path, request);
  if (response.ok) return response;
  const error = await refusal(response);
  const question = request.once ? undefined : questions[error.code];
  if (!question) throw error;
  if (!(await gate.passed(question))) throw question === "confirm" ? notConfirmed() : error;
  return answered(path, request);
}

async function sent(path: string, { method = "GET", body, signal, unattended }: Ask): Promise<Response> {
  const form = body instanceof FormData;
  const headers: Record<string, string> = unattended ? { "roundel-unattended": "1" } : {};
  if (method !== "GET" && !form) headers["content-type"] = "application/json";
  const response = await fetch(`/api${path}`, {
    method,
    signal,
    headers,
    body: form ? body : method === "GET" ? undefined : JSON.stringify(body ?? {}),
  }).catch((cause: unknown) => {
    if (signal?.aborted) throw cause;
    reach.lost();
    throw new ApiError(0, {
      code: "unreachable",
      sentence: "The bench does not answer. What you typed is kept here; try again when it is back.",
    });
  });
  reach.found({ attended: response.ok && !unattended });
  return response;
}

async function refusal(response: Response): Promise<ApiError> {
  const answer = (await response.json().catch(() => null)) as { error?: Problem } | null;
  if (answer?.error) return new ApiError(response.status, answer.error);
  return new ApiError(response.status, {
    code: "unreadable",
    sentence: `The bench answered with status ${response.status} and no reason. Nothing was saved.`,
  });
}

function notConfirmed(): ApiError {
  return new ApiError(401, {
    code: "notConfirmed",
    sentence: "Nothing was done, because nobody confirmed who is asking.",
  });
}
