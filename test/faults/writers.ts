import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";

const file = fileURLToPath(new URL("writer.ts", import.meta.url));

export interface Written {
  /** Ids that were acknowledged. */
  ids: string[];
  batches: number;
  done: boolean;
}

export interface WriterOptions {
  auditKey: Uint8Array;
  seed: number;
  /** Batches that are there already. */
  from?: number;
  /** Asked after each acknowledgement, and at the start: kills now, later this many ms, or not at all (null). */
  killAfter?: (batches: number) => number | null;
}

/** Runs a writer to its end, or until it is killed. */
export async function write(
  dataDir: string,
  { auditKey, seed, from = 0, killAfter = () => null }: WriterOptions,
): Promise<Written> {
  const args = ["--import", "tsx", file, dataDir, String(seed), String(from)];
  args.push(Buffer.from(auditKey).toString("hex"));
  const child = spawn(process.execPath, args, { stdio: ["ignore", "pipe", "pipe"] });
  const written: Written = { ids: [], batches: 0, done: false };
  const complaints: Buffer[] = [];
  child.stderr.on("data", (chunk: Buffer) => complaints.push(chunk));
  createInterface({ input: child.stdout }).on("line", (line) => {
    if (line === "done") written.done = true;
    else if (line !== "ready") {
      written.ids.push(...line.split(","));
      written.batches += 1;
    }
    const waitMs = killAfter(written.batches);
    if (waitMs !== null) killIn(child, waitMs);
  });
  const [status, signal] = await once(child, "close");
  if (status !== 0 && signal !== "SIGKILL") {
    throw new Error(`The writer failed: ${Buffer.concat(complaints).toString("utf8")}`);
  }
  return written;
}

function killIn(child: ChildProcess, waitMs: number): void {
  if (waitMs === 0) child.kill("SIGKILL");
  else setTimeout(() => child.kill("SIGKILL"), waitMs);
}
