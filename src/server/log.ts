import { existsSync, mkdirSync, renameSync, statSync } from "node:fs";
import { join } from "node:path";
import { type DestinationStream, type Logger, pino } from "pino";

const fileName = "bench.log";
const largestBytes = 5_000_000;

/** The log in a data folder, made where the record is elsewhere; where it has grown large, the one before is kept. */
export function fileLog(dataDir: string): Logger {
  mkdirSync(dataDir, { recursive: true, mode: 0o700 });
  const path = join(dataDir, fileName);
  if (existsSync(path) && statSync(path).size > largestBytes) {
    renameSync(path, join(dataDir, `before-${fileName}`));
  }
  return benchLog(pino.destination({ dest: path, sync: true, mode: 0o600 }));
}

/** Ids, routes and times as JSON lines. Of an error it keeps name, code and place, whoever logs it. */
export function benchLog(destination: DestinationStream): Logger {
  return pino(
    {
      level: "info",
      base: null,
      hooks: {
        logMethod([first, ...rest], method) {
          const error = first instanceof Error ? first : (first as { err?: unknown } | undefined)?.err;
          if (error instanceof Error) method.call(this, withoutContent(error), "error");
          else method.apply(this, [first, ...rest]);
        },
      },
    },
    destination,
  );
}

/** Name, code and place of an error; a message may quote the record, and names have no place in a log. */
export function withoutContent(error: unknown): { error: string; code?: string; at: string[] } {
  if (!(error instanceof Error)) return { error: typeof error, at: [] };
  const frames = (error.stack ?? "").split("\n").filter((line) => line.startsWith("    at "));
  const { code } = error as { code?: string };
  return { error: error.name, code, at: frames.map((line) => line.trim()).slice(0, 12) };
}
