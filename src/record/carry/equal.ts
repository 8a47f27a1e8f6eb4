import { CarryFault } from "./fault.ts";
import type { Digests } from "./format.ts";

/** @throws {CarryFault} `notEqual` that names the tables whose rows or hashes differ */
export function refuseUnequal(wanted: Digests, found: Digests): void {
  const names = [...new Set([...Object.keys(wanted), ...Object.keys(found)])];
  const differing = names.filter(
    (name) => wanted[name]?.rows !== found[name]?.rows || wanted[name]?.sha256 !== found[name]?.sha256,
  );
  if (differing.length === 0) return;
  throw new CarryFault(
    "notEqual",
    `What arrived is not what was sent: ${differing.join(", ")}. Nothing was kept; the record is where it was.`,
  );
}
