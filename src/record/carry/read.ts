import { createHash, type Hash } from "node:crypto";
import { z } from "zod";
import { CarryFault } from "./fault.ts";
import { type Digests, fromJson, type Header, header, type TableHead, tableHead, trailer } from "./format.ts";
import { notADump } from "./lines.ts";
import { rowsALook } from "./snapshot.ts";

/** Rows of one table as the database takes them, column by column in the order of `columns`. */
export interface Rows {
  table: string;
  columns: TableHead["columns"];
  rows: (string | number | Buffer | null)[][];
}

/**
 * Reads a dump and gives its rows, some hundred at a time. That it is whole is known at its end only: read to there
 * before believing any of it.
 * @param onHeader called once, before any row; may refuse by throwing
 * @returns what the rows came to, which agrees with the dump's own end
 * @throws {CarryFault} where a line is not what belongs there, or counts or hashes do not agree
 */
export async function* readDump(
  lines: AsyncIterable<string>,
  onHeader: (header: Header) => void | Promise<void> = () => {},
): AsyncGenerator<Rows, Digests, void> {
  let said: Header | null = null;
  let end: Digests | null = null;
  let open: OpenTable | null = null;
  const read: Digests = {};
  const close = () => {
    if (open) read[open.head.table] = { rows: open.count, sha256: open.hash.digest("hex") };
  };
  for await (const line of lines) {
    const value = parsed(line);
    if (end) throw damaged("there is something after its end");
    if (!said) {
      said = checkHeader(value);
      await onHeader(said);
    } else if (Array.isArray(value)) {
      if (!open) throw damaged("rows stand before their table");
      if (open.add(line, value)) yield open.take();
    } else {
      if (open && open.pending.length > 0) yield open.take();
      close();
      const head = tableHead.safeParse(value);
      const last = trailer.safeParse(value);
      if (head.success && !(head.data.table in read)) open = new OpenTable(head.data);
      else if (last.success) end = last.data.end;
      else throw damaged("a line is neither a table nor its end");
    }
  }
  if (!said) throw notADump();
  if (!end) throw damaged("its end is missing");
  compare(said, read, end);
  return read;
}

/** A table whose rows are being read. */
class OpenTable {
  readonly head: TableHead;
  readonly hash: Hash = createHash("sha256");
  count = 0;
  pending: Rows["rows"] = [];
  private letters = 0;

  constructor(head: TableHead) {
    this.head = head;
  }

  /** @returns whether enough rows wait to be taken */
  add(line: string, value: unknown[]): boolean {
    const { columns, table } = this.head;
    if (value.length !== columns.length) throw damaged(`a row of ${table} has ${value.length} values`);
    this.hash.update(`${line}\n`);
    this.count += 1;
    this.letters += line.length;
    this.pending.push(
      columns.map(([column, kind], at) => {
        const read = fromJson(value[at], kind);
        if (read === undefined) throw damaged(`${table}.${column} holds something else than ${kind}`);
        return read;
      }),
    );
    return this.pending.length >= rowsALook || this.letters > 4 * 2 ** 20;
  }

  take(): Rows {
    const rows = this.pending;
    [this.pending, this.letters] = [[], 0];
    return { table: this.head.table, columns: this.head.columns, rows };
  }
}

function parsed(line: string): unknown {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    throw damaged("a line is not JSON");
  }
  return value;
}

function checkHeader(value: unknown): Header {
  const version = z.object({ format: z.literal("roundel-backup"), version: z.number() }).safeParse(value);
  if (!version.success) throw notADump();
  if (version.data.version > 1) {
    throw new CarryFault("newerProgram", "This backup was made by a newer version of Roundel. Use that one.");
  }
  const read = header.safeParse(value);
  if (!read.success) throw notADump();
  return read.data;
}

function compare({ rows }: Header, read: Digests, end: Digests): void {
  const names = new Set([...Object.keys(rows), ...Object.keys(read), ...Object.keys(end)]);
  for (const name of names) {
    const [found, wanted] = [read[name], end[name]];
    if (!found || !wanted || found.rows !== wanted.rows || found.rows !== rows[name]) {
      throw damaged(
        `${name} has ${found?.rows ?? 0} rows where ${rows[name] ?? wanted?.rows ?? 0} are written down`,
      );
    }
    if (found.sha256 !== wanted.sha256) throw damaged(`the hash of ${name} does not agree`);
  }
}

function damaged(what: string): CarryFault {
  return new CarryFault("damaged", `The backup is damaged: ${what}.`);
}
