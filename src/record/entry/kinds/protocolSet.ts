import { z } from "zod";
import { type ProtocolKey, protocolDefinition, protocolKeys } from "../../../domain/protocol/index.ts";

/** The lead sets one threshold of the protocol; the envelope's `reason` says why. */
export const protocolSetBody = z
  .strictObject({ key: z.enum(protocolKeys as [ProtocolKey, ...ProtocolKey[]]), value: z.number() })
  .superRefine(({ key, value }, context) => {
    const { min, max, unit } = protocolDefinition(key);
    if (value < min || value > max) {
      context.addIssue({
        code: "custom",
        path: ["value"],
        message: "is outside what this value may be",
        params: { expected: `${min} to ${max} ${unit}` },
      });
    }
  });
