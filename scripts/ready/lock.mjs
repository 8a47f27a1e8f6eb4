import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";

const tryAgainMs = 100;
/** A lock whose owner wrote no id yet is only kept for as long as that takes. */
const ownerlessMs = 5_000;

/**
 * Does `work` while no other process that asked for the same lock does. A lock left by a process that is gone
 * is taken over.
 * @template T
 * @param {string} folder made to hold the lock and removed afterwards
 * @param {() => Promise<T>} work
 * @param {() => void} [onWait] called once when another process has it
 * @returns {Promise<T>}
 */
export async function withLock(folder, work, onWait) {
  mkdirSync(dirname(folder), { recursive: true });
  let waiting = false;
  while (!taken(folder)) {
    if (isAbandoned(folder)) {
      rmSync(folder, { recursive: true, force: true });
      continue;
    }
    if (!waiting) onWait?.();
    waiting = true;
    await pause(tryAgainMs);
  }
  const release = () => rmSync(folder, { recursive: true, force: true });
  process.once("exit", release);
  try {
    return await work();
  } finally {
    process.removeListener("exit", release);
    release();
  }
}

function taken(folder) {
  try {
    mkdirSync(folder);
  } catch (error) {
    if (error.code === "EEXIST") return false;
    throw error;
  }
  writeFileSync(join(folder, "owner"), String(process.pid));
  return true;
}

function isAbandoned(folder) {
  const owner = ownerOf(folder);
  if (owner === null) return ageMs(folder) > ownerlessMs;
  try {
    process.kill(owner, 0);
    return false;
  } catch (error) {
    return error.code === "ESRCH";
  }
}

function ownerOf(folder) {
  try {
    return Number(readFileSync(join(folder, "owner"), "utf8")) || null;
  } catch {
    return null;
  }
}

/** 0 for a lock that was released meanwhile: it is not abandoned, and can be taken on the next try. */
function ageMs(folder) {
  try {
    return Date.now() - statSync(folder).mtimeMs;
  } catch {
    return 0;
  }
}
