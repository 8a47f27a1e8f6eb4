import { type Region, signedAreaMm2 } from "../outline/index.ts";
import { type SitingPosture, sitingPostures } from "./kinds.ts";
import { regionOf, regionWithout, type Siting } from "./siting.ts";

/** What one posture takes from the region. */
export interface PostureTake {
  posture: SitingPosture;
  /** The region that keeps every rule but this posture's own. */
  regionWithout: Region;
  /** So much smaller the region is because of this posture. */
  takenMm2: number;
}

/** For every posture that something was marked in. */
export function takenByPosture(siting: Siting): PostureTake[] {
  const withAllMm2 = regionMm2(regionOf(siting));
  return sitingPostures
    .filter((posture) => siting.rules.some((rule) => rule.posture === posture))
    .map((posture) => {
      const without = regionWithout(siting, posture);
      return { posture, regionWithout: without, takenMm2: Math.max(0, regionMm2(without) - withAllMm2) };
    });
}

export function regionMm2(region: Region): number {
  return region.reduce((sum, part) => sum + signedAreaMm2(part), 0);
}
