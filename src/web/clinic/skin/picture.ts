import { createContext, useContext } from "react";

/** A picture of the skin from straight above, laid under the map where one is at hand. */
export interface SkinPicture {
  url: string;
  sidePx: number;
  mmPerPx: number;
  /** Where its middle lies, mm from the centre of the stoma's base. */
  middleMm: readonly [number, number];
}

export const SkinPictureContext = createContext<SkinPicture | null>(null);

export function useSkinPicture(): SkinPicture | null {
  return useContext(SkinPictureContext);
}
