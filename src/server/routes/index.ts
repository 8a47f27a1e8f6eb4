import type { Bench, Workings } from "../bench.ts";
import { accountRoutes } from "./account/index.ts";
import { auditRoutes } from "./audit.ts";
import { clinicRoutes } from "./clinic.ts";
import { entriesRoutes } from "./entries.ts";
import { erasureRoutes } from "./erasure.ts";
import { exportRoutes } from "./export.ts";
import { logRoutes } from "./log.ts";
import { peopleRoutes } from "./people.ts";
import { photosRoutes } from "./photos.ts";
import { protocolRoutes } from "./protocol.ts";
import { sessionRoutes } from "./session.ts";
import { sheetsRoutes } from "./sheets.ts";
import { todayRoutes } from "./today.ts";

/** Everything under /api. */
export function allRoutes(bench: Bench, workings: Workings): void {
  sessionRoutes(bench, workings);
  accountRoutes(bench, workings);
  clinicRoutes(bench, workings);
  todayRoutes(bench, workings);
  peopleRoutes(bench, workings);
  entriesRoutes(bench, workings);
  photosRoutes(bench, workings);
  protocolRoutes(bench, workings);
  sheetsRoutes(bench, workings);
  logRoutes(bench, workings);
  exportRoutes(bench, workings);
  auditRoutes(bench, workings);
  erasureRoutes(bench, workings);
  bench.get("/api/openapi.json", { schema: { hide: true } }, async () => bench.swagger());
}
