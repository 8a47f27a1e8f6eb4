/** Whether a name typed by hand is the person's: spaces and capitals may differ. */
export function isTypedName(typed: string, name: string): boolean {
  return folded(typed) === folded(name);
}

function folded(name: string): string {
  return name.normalize("NFC").trim().replace(/\s+/g, " ").toLocaleLowerCase("und");
}
