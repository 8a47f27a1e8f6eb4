import type { benchRoles } from "../../../record/accounts/account.ts";
import { Choice } from "../../shared/ui/index.ts";
import { roleMay, roleWords } from "./roles.ts";

/** A role of those who work at the bench. */
export type BenchRole = (typeof benchRoles)[number];

const choices = (["nurse", "reader", "lead"] as const).map((value) => ({
  value,
  label: `${roleWords[value]}: may ${roleMay[value]}`,
}));

export function RoleChoice({
  value,
  onChange,
  error,
}: {
  value: BenchRole | "";
  onChange: (role: BenchRole) => void;
  error?: string;
}) {
  return <Choice stacked label="Role" value={value} onChange={onChange} choices={choices} error={error} />;
}
