import type { Bench, Workings } from "../bench.ts";
import { clinicRoutes } from "./clinic.ts";
import { entriesRoutes } from "./entries.ts";
import { exportRoutes } from "./export.ts";
import { logRoutes } from "./log.ts";
import { peopleRoutes } from "./people.ts";
import { protocolRoutes } from "./protocol.ts";
import { sessionRoutes } from "./session.ts";
import { sheetsRoutes } from "./sheets.ts";
import { todayRoutes } from "./today.ts";

/** Everything under /api. */
export function allRoutes(bench: Bench, workings: Workings): void {
  sessionRoutes(bench, workings);
  clinicRoutes(bench, workings);
  todayRoutes(bench, workings);
  peopleRoutes(bench, workings);
  entriesRoutes(bench, workings);
  protocolRoutes(bench, workings);
  sheetsRoutes(bench, workings);
  logRoutes(bench, workings);
  exportRoutes(bench, workings);
  bench.get("/api/openapi.json", { schema: { hide: true } }, async () => bench.swagger());
}
