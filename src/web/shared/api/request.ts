import type { Fault } from "../../../domain/fault.ts";
import type { StoredEntry } from "../../../record/entry/index.ts";
import { reach } from "./reach.ts";

/** What the bench answered instead of what was asked for. `status` 0: nothing answered. */
export class ApiError extends Error {
  readonly status: number;
  readonly code: string;
  readonly faults: readonly Fault[];
  /** The entry that stands in the way of a correction or an id. */
  readonly existing: StoredEntry | undefined;
  constructor(
    status: number,
    problem: { code: string; sentence: string; faults?: Fault[]; existing?: StoredEntry },
  ) {
    super(problem.sentence);
    this.name = "ApiError";
    this.status = status;
    this.code = problem.code;
    this.faults = problem.faults ?? [];
    this.existing = problem.existing;
  }
}

export interface Ask {
  method?: "GET" | "POST";
  /** Sent as JSON, or as it is where it is a form. */
  body?: unknown;
  signal?: AbortSignal;
}

/** Asks the bench and reads its answer as JSON. @throws {ApiError} */
export async function ask<T>(path: string, request: Ask = {}): Promise<T> {
  const response = await answered(path, request);
  return (await response.json()) as T;
}

/** Asks the bench for a file, such as a PDF. @throws {ApiError} */
export async function askFile(path: string, request: Ask = {}): Promise<Blob> {
  const response = await answered(path, request);
  return response.blob();
}

async function answered(path: string, { method = "GET", body, signal }: Ask): Promise<Response> {
  const form = body instanceof FormData;
  const response = await fetch(`/api${path}`, {
    method,
    signal,
    headers: body === undefined || form ? {} : { "content-type": "application/json" },
    body: form ? body : body === undefined ? undefined : JSON.stringify(body),
  }).catch((cause: unknown) => {
    if (signal?.aborted) throw cause;
    reach.lost();
    throw new ApiError(0, {
      code: "unreachable",
      sentence: "The bench does not answer. What you typed is kept here; try again when it is back.",
    });
  });
  reach.found();
  if (response.ok) return response;
  throw await refusal(response);
}

async function refusal(response: Response): Promise<ApiError> {
  const answer = (await response.json().catch(() => null)) as {
    error?: ConstructorParameters<typeof ApiError>[1];
  } | null;
  if (answer?.error) return new ApiError(response.status, answer.error);
  return new ApiError(response.status, {
    code: "unreadable",
    sentence: `The bench answered with status ${response.status} and no reason. Nothing was saved.`,
  });
}
