export { type PreparedPhoto, photoLimits, preparePhoto } from "./prepare.ts";
export { countStale, resealPhotos } from "./reseal.ts";
export { type NewPhoto, type OpenedPhoto, type PhotoFacts, PhotoStore } from "./store.ts";
export { photosWithdrawn } from "./withdrawn.ts";
