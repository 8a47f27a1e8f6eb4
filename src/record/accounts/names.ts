import { z } from "zod";

/** Neither control nor formatting characters: a name must be what it looks like. */
const invisible = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u;

const visible = (text: string) => !invisible.test(text);
const expected = { params: { expected: "letters, figures, spaces and marks that can be seen" } };

export const signInName = z
  .string()
  .max(200)
  .transform((text) => text.normalize("NFKC").trim())
  .pipe(
    z
      .string()
      .min(2)
      .max(64)
      .refine(visible, { message: "holds characters that cannot be seen", ...expected }),
  );

export const displayName = z
  .string()
  .max(300)
  .transform((text) => text.normalize("NFC").trim())
  .pipe(
    z
      .string()
      .min(1)
      .max(120)
      .refine(visible, { message: "holds characters that cannot be seen", ...expected }),
  );

/** By which sign-in names are the same: case, width and doubled spaces make no difference. */
export function signInKey(name: string): string {
  return name.normalize("NFKC").trim().replace(/\s+/g, " ").toLocaleLowerCase("und");
}
