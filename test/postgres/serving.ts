import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";

/** A process of its own that serves the bench. */
export interface Serving {
  port: number;
  /** Ends it as a power cut would. */
  kill(): Promise<void>;
  /** Ends it as Ctrl-C does. */
  stop(): Promise<void>;
}

const program = fileURLToPath(new URL("roundel.ts", import.meta.url));

/** Starts `roundel serve` on a free port and waits until it says where it is open. */
export async function serving(args: readonly string[], env: NodeJS.ProcessEnv): Promise<Serving> {
  const child = spawn(process.execPath, ["--import", "tsx", program, "serve", "--port", "0", ...args], {
    env: { ...process.env, ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const port = await portSaid(child);
  const ended = once(child, "exit");
  const end = (signal: NodeJS.Signals) => async () => {
    if (child.exitCode === null && child.signalCode === null) child.kill(signal);
    await ended;
  };
  return { port, kill: end("SIGKILL"), stop: end("SIGINT") };
}

function portSaid(child: ChildProcess): Promise<number> {
  let said = "";
  return new Promise((resolve, reject) => {
    for (const stream of [child.stdout!, child.stderr!]) {
      stream.setEncoding("utf8").on("data", (text: string) => {
        said += text;
        const found = /open at http:\/\/\S+?:(\d+)\//.exec(said);
        if (found) resolve(Number(found[1]));
      });
    }
    child.once("exit", (status) => reject(new Error(`it ended with ${status}: ${said}`)));
  });
}
