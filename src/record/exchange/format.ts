import { z } from "zod";
import { type Fault, faultsOf } from "../../domain/fault.ts";

/** The first line of an exported record. */
export const header = z.object({
  format: z.literal("roundel-record"),
  version: z.literal(1),
  clinicId: z.uuid(),
  exportedAt: z.iso.datetime(),
  programVersion: z.string().max(40),
  /** Lines that follow, one entry each: a file with fewer was cut short. */
  entries: z.number().int().min(0),
});
export type Header = z.infer<typeof header>;

/** A line as JSON, or the fault of a line that is none. */
export function parseLine(text: string): { value: unknown; fault?: undefined } | { fault: Fault } {
  try {
    return { value: JSON.parse(text) };
  } catch {
    return {
      fault: { path: "", problem: "is not JSON", got: text.slice(0, 60), expected: "one JSON object" },
    };
  }
}

/** Reads the first line of a file. */
export function readHeader(text: string): { header: Header; faults?: undefined } | { faults: Fault[] } {
  const line = parseLine(text);
  if (line.fault) return { faults: [line.fault] };
  const read = header.safeParse(line.value);
  return read.success ? { header: read.data } : { faults: faultsOf(read.error, line.value) };
}
