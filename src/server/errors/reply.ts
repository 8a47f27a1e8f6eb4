import { type Fault, shown } from "../../domain/fault.ts";
import type { StoredEntry } from "../../record/entry/index.ts";
import type { Bench } from "../bench.ts";
import { withoutContent } from "../log.ts";
import { Refusal, refusalOf } from "./refusal.ts";
import type { ErrorCode } from "./table.ts";

/** The body of every answer that is not what was asked for. */
export interface ErrorBody {
  error: {
    code: ErrorCode;
    sentence: string;
    faults?: Fault[];
    existing?: StoredEntry;
    waitSeconds?: number;
    personIds?: readonly string[];
    id?: string;
  };
}

/** Answers errors by the table; what nobody foresaw is logged under an id, and nothing of it is told. */
export function answerErrors(bench: Bench): void {
  bench.setErrorHandler((error, request, reply) => {
    const refusal = refusalOf(error);
    if (refusal) {
      if (refusal.waitSeconds !== undefined) reply.header("retry-after", refusal.waitSeconds);
      return reply.code(refusal.status).send(bodyOf(refusal));
    }
    request.log.error({ ...withoutContent(error), requestId: request.id }, "unforeseen error");
    const internal = new Refusal("internal");
    const body = bodyOf(internal);
    return reply.code(internal.status).send({ error: { ...body.error, id: request.id } });
  });
}

export function bodyOf({ code, message, faults, existing, waitSeconds, personIds }: Refusal): ErrorBody {
  return {
    error: {
      code,
      sentence: message,
      ...(faults ? { faults: faults.map(shortened) } : {}),
      ...(existing ? { existing } : {}),
      ...(waitSeconds === undefined ? {} : { waitSeconds }),
      ...(personIds ? { personIds } : {}),
    },
  };
}

/** A large or deep value is told in brief: what was sent need not come back whole. */
function shortened(fault: Fault): Fault {
  const { got } = fault;
  const isShort =
    got === null ||
    typeof got === "number" ||
    typeof got === "boolean" ||
    (typeof got === "string" && got.length < 200);
  return isShort || got === undefined ? fault : { ...fault, got: shown(got) };
}
