import { type Fault, InputError } from "../../domain/fault.ts";
import { AccountError } from "../../record/accounts/index.ts";
import type { StoredEntry } from "../../record/entry/index.ts";
import { NobodyToErase } from "../../record/erasure/index.ts";
import { ConflictError, databaseTrouble, ErasedError, MovedOnError } from "../../record/store/index.ts";
import { type ErrorCode, errorTable } from "./table.ts";

/** A request that is answered with an error of the table. */
export class Refusal extends Error {
  readonly code: ErrorCode;
  readonly status: number;
  readonly faults: readonly Fault[] | undefined;
  readonly existing: StoredEntry | undefined;
  readonly waitSeconds: number | undefined;
  /** People who are not in the record any more, so that a device can forget them. */
  readonly personIds: readonly string[] | undefined;
  constructor(
    code: ErrorCode,
    {
      faults,
      existing,
      waitSeconds,
      personIds,
    }: {
      faults?: readonly Fault[];
      existing?: StoredEntry;
      waitSeconds?: number;
      personIds?: readonly string[];
    } = {},
  ) {
    super(errorTable[code].sentence);
    this.name = "Refusal";
    this.code = code;
    this.status = errorTable[code].status;
    this.faults = faults;
    this.existing = existing;
    this.waitSeconds = waitSeconds;
    this.personIds = personIds;
  }
}

/** What the framework and its plugins call the errors that a reader can cause. */
const frameworkCodes: Record<string, ErrorCode> = {
  FST_ERR_CTP_INVALID_JSON_BODY: "badJson",
  FST_ERR_CTP_EMPTY_JSON_BODY: "badJson",
  FST_ERR_CTP_BODY_TOO_LARGE: "tooLarge",
  FST_ERR_CTP_INVALID_MEDIA_TYPE: "wrongType",
  FST_ERR_CTP_EMPTY_TYPE: "wrongType",
  FST_REQ_FILE_TOO_LARGE: "tooLarge",
  FST_FILES_LIMIT: "badUpload",
  FST_FIELDS_LIMIT: "badUpload",
  FST_PARTS_LIMIT: "badUpload",
  FST_PROTO_VIOLATION: "badUpload",
  FST_INVALID_MULTIPART_CONTENT_TYPE: "wrongType",
};

/** The refusal behind an error; null for one that nobody foresaw. */
export function refusalOf(error: unknown): Refusal | null {
  if (error instanceof Refusal) return error;
  if (error instanceof InputError) return new Refusal("refused", { faults: error.faults });
  if (error instanceof AccountError) return new Refusal(error.code);
  if (error instanceof ConflictError) return new Refusal(error.code, { existing: error.existing });
  if (error instanceof ErasedError) return new Refusal("erased", { personIds: error.personIds });
  if (error instanceof NobodyToErase) return new Refusal("noSuchPerson");
  if (error instanceof MovedOnError) return new Refusal("busy");
  const trouble = databaseTrouble(error);
  if (trouble) return new Refusal(trouble);
  const { code, statusCode, status } = (error ?? {}) as {
    code?: string;
    statusCode?: number;
    status?: number;
  };
  const known = code === undefined ? undefined : frameworkCodes[code];
  if (known) return new Refusal(known);
  const answer = statusCode ?? status;
  return answer !== undefined && answer >= 400 && answer < 500 ? new Refusal("badRequest") : null;
}
