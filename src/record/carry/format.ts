import { z } from "zod";
import type { CarriedTable, ColumnKind } from "./tables.ts";

const rowCount = z.number().int().min(0);

/** The first line of a dump. */
export const header = z.object({
  format: z.literal("roundel-backup"),
  version: z.literal(1),
  recordId: z.uuid(),
  madeAt: z.iso.datetime(),
  programVersion: z.string().max(40),
  /** What brought the tables to this form, in the order it was done. */
  migrations: z.array(z.string().max(100)).max(10_000),
  /** Clinics with entries. */
  clinics: z.array(z.string().max(100)),
  /** The last cursor that was ever given to an entry, also to one that is gone: none is given twice. */
  lastCursor: rowCount,
  /** Rows that follow, by table. */
  rows: z.record(z.string().max(100), rowCount),
  /** A trial: the first rows of each table alone. Never restored. */
  isTrial: z.boolean().optional(),
});
export type Header = z.infer<typeof header>;

/** The line before a table's rows; each row is an array of values in the order of these columns. */
export const tableHead = z.object({
  table: z.string().max(100),
  columns: z.array(z.tuple([z.string().max(100), z.enum(["text", "integer", "number", "bytes"])])).max(500),
});
export type TableHead = z.infer<typeof tableHead>;

/** The last line: what came before it is whole when its counts and hashes agree. */
export const trailer = z.object({
  end: z.record(
    z.string().max(100),
    z.object({ rows: rowCount, sha256: z.string().regex(/^[0-9a-f]{64}$/) }),
  ),
});
export type Digests = z.infer<typeof trailer>["end"];

/** A row as one line of JSON, the same on every engine. */
export function rowLine(row: Record<string, unknown>, { columns }: Pick<CarriedTable, "columns">): string {
  return `${JSON.stringify(columns.map(({ name, kind }) => toJson(row[name], kind)))}\n`;
}

/** A value as the database takes it; undefined when it is none of its kind. */
export function fromJson(value: unknown, kind: ColumnKind): string | number | Buffer | null | undefined {
  if (value === null) return null;
  if (kind === "integer") return Number.isSafeInteger(value) ? (value as number) : undefined;
  if (kind === "number") return typeof value === "number" ? value : undefined;
  if (typeof value !== "string") return undefined;
  return kind === "bytes" ? Buffer.from(value, "base64") : value;
}

/** PostgreSQL gives whole numbers as text, since they may be larger than a number holds; ours are not. */
function toJson(value: unknown, kind: ColumnKind): unknown {
  if (value === null || value === undefined) return null;
  if (kind === "bytes") return Buffer.from(value as Uint8Array).toString("base64");
  return kind === "text" ? value : Number(value);
}
