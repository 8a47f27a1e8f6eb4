export {
  type AfterSurgery,
  afterSurgery,
  type PersonAfterSurgery,
  type SitedPerson,
} from "./afterSurgery.ts";
export { type Candidate, type SitingAnswer, siting } from "./answer.ts";
export { type Crossing, type Footprint, lengthInside } from "./barrier.ts";
export { bestPlaces, largestClearance } from "./best.ts";
export { type BodyMap, bodyMap, type TapeReadings } from "./bodyMap.ts";
export { type Conflict, conflictIn } from "./conflict.ts";
export { type DistanceMm, fromPoint, fromRegion, fromSegment } from "./distance.ts";
export { questionOf, type SitingDocument } from "./document.ts";
export type { Finding } from "./finding.ts";
export {
  kindFacts,
  type LandmarkKind,
  landmarkKinds,
  neededPostures,
  type RuleKind,
  type SitingPosture,
  sitingPostures,
} from "./kinds.ts";
export { type Landmark, type LandmarkShape, pointsOf } from "./landmark.ts";
export { type Clearance, type Place, type PostureSlack, placeAt } from "./place.ts";
export { type PostureTake, regionMm2, takenByPosture } from "./postures.ts";
export { type Quadrant, quadrants, quadrantWords } from "./quadrant.ts";
export { placedBy, type Registration, registerPosture, type SharedMark } from "./register.ts";
export { prepareSiting, regionOf, type Siting, type SitingQuestion } from "./siting.ts";
