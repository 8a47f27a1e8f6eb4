import { defineProtocol } from "./definition.ts";

/** The healing curve and its weak prior. */
export const healingProtocol = defineProtocol({
  riseAfterDay: {
    label: "A size that rises after this day is unexpected",
    unit: "days",
    default: 14,
    min: 3,
    max: 60,
    source: "Swelling eases over 6 to 8 weeks; a rise after week 2 may mean blockage, hernia or prolapse",
    certainty: "judgement",
  },
});
