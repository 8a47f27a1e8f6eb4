import type { LinkKind } from "./links.ts";

const pages: Record<LinkKind, string> = {
  setUp: "set-up",
  newClinic: "set-up",
  join: "join",
  recover: "recover",
};

/** A link to hand over. Its secret stands behind the hash sign, which browsers send to nobody and no log keeps. */
export function linkTo(kind: LinkKind, token: string, origin: string): string {
  return `${origin}/${pages[kind]}#${token}`;
}
