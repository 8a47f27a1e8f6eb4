export type Program = "chromium" | "pdftoppm";
export function missingPrograms(): Program[];
export function chromiumPath(): string;
export function pdftoppmPath(): string;
export function missingSentence(missing: Program[]): string;
