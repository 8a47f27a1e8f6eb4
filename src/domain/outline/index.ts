export { type Boundary, boundaryOf } from "./boundary.ts";
export {
  clockDirection,
  clockHourAt,
  mirror,
  mirrorHour,
  moved,
  onClock,
  radiusAtClockHour,
  selfViewHour,
} from "./clock.ts";
export { type Crossing, findCrossing } from "./crossing.ts";
export { curveThrough } from "./curve.ts";
export { type Circle, smallestCircle } from "./enclosing.ts";
export { type Handles, handleErrorMm, handlesOf, outlineFromHandles } from "./handles.ts";
export { calliperWidths, convexHull } from "./hull.ts";
export { type Dimensions, dimensionsOf, measureOutline, type OutlineMeasures } from "./measure.ts";
export { magnification } from "./parallax.ts";
export { areaMm2, centroidMm, distanceMm, perimeterMm, signedAreaMm2 } from "./polygon.ts";
export { difference, grown, intersection, largestPart, type Region, union } from "./region.ts";
export { type GuideReading, type Outline, outlineOf, type Point, type Shape } from "./shape.ts";
export { simplify, thinned } from "./simplify.ts";
export { evenlySpaced } from "./spacing.ts";
export { smoothTracing, type Tracing } from "./tracing.ts";
export { outlineFrom, type Track, trackOf } from "./track.ts";
