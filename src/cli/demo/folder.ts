import { relative } from "node:path";
import { fileURLToPath } from "node:url";

/** The demo's own folder, inside the project and beside no one. */
export function demoFolder(): string {
  return shortest(fileURLToPath(new URL("../../../data/demo", import.meta.url)));
}

function shortest(path: string): string {
  const fromHere = relative(process.cwd(), path);
  return fromHere.startsWith("..") || fromHere === "" ? path : fromHere;
}
