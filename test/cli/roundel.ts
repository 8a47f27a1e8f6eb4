import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

export interface Said {
  status: number | null;
  stdout: string;
  stderr: string;
}

/** The command line as a person starts it. */
export const roundelFile = fileURLToPath(new URL("../../bin/roundel.mjs", import.meta.url));

/** What the command says where it has to build first: not part of the answer. */
const buildNotices =
  /^(Building the program|Building the pages|Another process is building; waiting for it)\.\n/gm;

/** Runs one command line to its end. Standard input is empty unless given. */
export function roundel(args: readonly string[], stdin: string | Uint8Array = ""): Promise<Said> {
  return new Promise((resolve, reject) => {
    const { PORT: _port, ...env } = process.env;
    const child = spawn(process.execPath, [roundelFile, ...args], { env });
    const said = { stdout: [] as Buffer[], stderr: [] as Buffer[] };
    child.stdout.on("data", (chunk: Buffer) => said.stdout.push(chunk));
    child.stderr.on("data", (chunk: Buffer) => said.stderr.push(chunk));
    // A command that refuses before it reads closes its end of the pipe.
    child.stdin.on("error", () => {});
    child.stdin.end(stdin);
    child.on("error", reject);
    child.on("close", (status) => {
      const text = (chunks: Buffer[]) => Buffer.concat(chunks).toString("utf8");
      resolve({ status, stdout: text(said.stdout), stderr: text(said.stderr).replace(buildNotices, "") });
    });
  });
}
