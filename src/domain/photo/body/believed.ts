/**
 * What is believed of stomas before the picture is looked at. None of it is measured on people: heights follow the
 * surgical targets and the one published mean, the rest is our judgement. The picture outweighs it where it says
 * anything, and the stated uncertainty grows where it does not.
 */
export const believed = {
  /** Height above the skin: some stand hardly above it, the others spread like a bell. */
  heightMm: { lowShare: 0.25, lowMean: 2.5, mean: 12, spread: 7, most: 34 },
  /**
   * Light lost by the skin at the foot: about none beside a low stoma, and with growing height more often plainly
   * some. `halfwayMm`: the height at which half of all shade their foot.
   */
  shade: { halfwayMm: 4, widthMm: 1.5, seldom: 0.1, none: 0.03, noneSpread: 0.035, some: 0.35 },
  /** How full the solid is, and how much it overhangs; each with its share. */
  fullness: [
    { value: 2.2, share: 0.25 },
    { value: 2.8, share: 0.5 },
    { value: 3.6, share: 0.25 },
  ],
  overhang: [
    { value: 0, share: 0.68 },
    { value: 0.035, share: 0.24 },
    { value: 0.075, share: 0.08 },
  ],
  /** Lower stomas overhang less, in proportion. */
  overhangFromMm: 12,
  /** Waves of the base's outline as shares of its radius: nearly round or plainly oval, then smaller ones. */
  oval: [
    { spread: 0.035, share: 0.6 },
    { spread: 0.13, share: 0.4 },
  ],
  waves: [0.015, 0.012, 0.008, 0.006],
  /**
   * The opening of the bowel lies in a dip near the summit: its height as a share of the stoma's, how far it is from
   * over the base's middle (and in shares of its width), and how often something else is taken for it.
   */
  tip: { heightShare: 0.8, heightSpread: 0.1, placeMm: 0.8, placeShare: 0.02, mistaken: 0.05 },
  /** Error of a silhouette's edge in one direction, and how many of the directions count as independent. */
  edgeMm: 0.22,
  independent: 16,
} as const;
