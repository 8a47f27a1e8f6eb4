import type { SVGProps } from "react";

const hidden = { "aria-hidden": true } as const;

/** Marks that the plate's summary says in words: not read out one by one. */
export function Unspoken(props: SVGProps<SVGGElement>) {
  return <g {...hidden} {...props} />;
}
