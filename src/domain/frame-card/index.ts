import geometry from "./frame-card.json" with { type: "json" };

/** One marker: rows of modules from the head side, 1 = white; the outer ring of modules is its black border. */
export interface Marker {
  id: number;
  centreMm: readonly [number, number];
  modules: readonly (readonly number[])[];
}

/** The card as the photograph reader expects it: millimetres from the hole's centre, x to the right, y to the head. */
export const card = {
  sideMm: geometry.card.width,
  holeRadiusMm: geometry.card.holeRadius,
  markerSideMm: geometry.markers.side,
  markers: geometry.markers.list.map(
    ({ id, centre, modules }): Marker => ({ id, centreMm: [centre[0]!, centre[1]!], modules }),
  ),
} as const;
