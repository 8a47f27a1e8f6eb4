/** What can be seen on the skin, each by itself: there is no order among them and nothing is added up. */
export const skinSigns = [
  "redderOrDarker",
  "moistAndPale",
  "spots",
  "blister",
  "surfaceGone",
  "deepLoss",
  "bleeding",
  "raisedFlesh",
  "bruise",
] as const;
export type SkinSign = (typeof skinSigns)[number];
