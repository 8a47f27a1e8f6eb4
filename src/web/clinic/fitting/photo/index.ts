export { PhotoPart } from "./PhotoPart.tsx";
export { SkinDialog } from "./SkinDialog.tsx";
export { type PhotoWay, usePhotoWay } from "./usePhotoWay.ts";
