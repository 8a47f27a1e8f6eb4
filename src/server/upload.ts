import type { FastifyRequest } from "fastify";
import { Refusal, refusalOf } from "./errors/refusal.ts";

/** A form with one file and some fields. */
export interface Upload {
  file: Uint8Array;
  fields: Record<string, string>;
}

/** Reads a form whose file stands in the field `file`. @throws {Refusal} `badUpload`, `tooLarge`, `wrongType` */
export async function readUpload(request: FastifyRequest): Promise<Upload> {
  if (!request.isMultipart()) throw new Refusal("wrongType");
  let file: Uint8Array | null = null;
  const fields: Record<string, string> = {};
  try {
    for await (const part of request.parts()) {
      if (part.type === "file") {
        const bytes = await part.toBuffer();
        if (part.fieldname === "file") file = bytes;
      } else if (typeof part.value === "string") fields[part.fieldname] = part.value;
    }
  } catch (error) {
    // Whatever the parser trips over, it is the sender's form that is broken.
    throw refusalOf(error) ?? new Refusal("badUpload");
  }
  if (!file) throw new Refusal("badUpload");
  return { file, fields };
}
