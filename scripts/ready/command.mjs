import { spawn } from "node:child_process";
import { projectDir } from "./project.mjs";

/**
 * Runs a command in the project's folder and shows what it prints.
 * @param {string} command
 * @param {string[]} args
 * @param {{ env?: NodeJS.ProcessEnv, quiet?: boolean }} [options] `quiet` keeps its output back unless it fails
 * @returns {Promise<number>} its exit status; 130 when it was interrupted
 */
export function run(command, args, { env = process.env, quiet = false } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      cwd: projectDir,
      env,
      stdio: ["ignore", quiet ? "pipe" : "inherit", quiet ? "pipe" : "inherit"],
      shell: process.platform === "win32" && command === "npm",
    });
    const kept = [];
    for (const stream of [child.stdout, child.stderr]) stream?.on("data", (chunk) => kept.push(chunk));
    child.on("error", reject);
    child.on("close", (status, signal) => {
      if (quiet && status !== 0) process.stderr.write(Buffer.concat(kept));
      resolve(status ?? (signal === "SIGINT" ? 130 : 1));
    });
  });
}

/** Runs a Node program of an installed package. */
export function runNode(program, args, options) {
  return run(process.execPath, [program, ...args], options);
}
