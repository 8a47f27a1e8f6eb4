import type { WarningSign } from "../row.ts";
import { bleedingSigns } from "./bleeding.ts";
import { blockageSigns } from "./blockage.ts";
import { infectionSigns } from "./infection.ts";
import { outputSigns } from "./output.ts";
import { personSigns } from "./person.ts";
import { shapeSigns } from "./shape.ts";
import { skinSigns } from "./skin.ts";
import { urostomySigns } from "./urostomy.ts";

/** The signs as they come, for the lead to edit. Within a level the first ones are shown first. */
export const warningSigns: readonly WarningSign[] = [
  ...bleedingSigns,
  ...blockageSigns,
  ...outputSigns,
  ...shapeSigns,
  ...infectionSigns,
  ...urostomySigns,
  ...skinSigns,
  ...personSigns,
];
