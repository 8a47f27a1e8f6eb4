import type { Scenario } from "../scenario.ts";
import { ended } from "./ended.ts";
import { firstDays } from "./firstDays.ts";
import { firstWeeks } from "./firstWeeks.ts";
import { settled } from "./settled.ts";
import { trouble } from "./trouble.ts";

/** Everyone in the demo. New people go at the end of their part: a place in this list is a seed. */
export const caseload: readonly Scenario[] = [...firstDays, ...firstWeeks, ...trouble, ...settled, ...ended];
