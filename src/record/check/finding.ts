/** Something in a record that is not as it should be. */
export interface Finding {
  part: CheckedPart;
  /** What is damaged, by id; null for the file or the table as a whole. */
  id: string | null;
  /** A sentence without content of the record. */
  problem: string;
}

export type CheckedPart = "file" | "entries" | "lists" | "photographs" | "audit" | "keys";

/** What mends a part. Lists are made anew from the entries; everything else is in a backup alone. */
export const mendedBy: Record<CheckedPart, "restore" | "rebuild" | "keyFile"> = {
  file: "restore",
  entries: "restore",
  lists: "rebuild",
  photographs: "restore",
  audit: "restore",
  keys: "keyFile",
};
