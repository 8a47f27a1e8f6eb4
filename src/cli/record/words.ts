/** "812 B", "4.2 kB", "1.3 GB". */
export function inSize(bytes: number): string {
  const units = ["B", "kB", "MB", "GB", "TB"];
  const step = Math.min(units.length - 1, Math.floor(Math.log10(Math.max(1, bytes)) / 3));
  return `${(bytes / 1000 ** step).toFixed(step === 0 ? 0 : 1)} ${units[step]}`;
}

/** "1 entry", "3 entries". */
export function counted(count: number, one: string, more = `${one}s`): string {
  return `${count} ${count === 1 ? one : more}`;
}

/** "2026-11-25 14:02 UTC". */
export function atTime(iso: string): string {
  return `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`;
}
