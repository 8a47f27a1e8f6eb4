export { type SkinPicture, SkinPictureContext } from "./picture.ts";
export { SkinMap } from "./SkinMap.tsx";
