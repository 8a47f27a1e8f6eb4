import type { Bench, Workings } from "../../bench.ts";
import { accountsRoutes } from "./accounts.ts";
import { joinRoutes } from "./join.ts";
import { ownAccountRoutes } from "./own.ts";
import { passkeyRoutes } from "./passkeys.ts";
import { recoverRoutes } from "./recover.ts";
import { setUpRoutes } from "./setUp.ts";
import { signInRoutes } from "./signIn.ts";

/** Getting in, one's own account, and the accounts of the clinic. */
export function accountRoutes(bench: Bench, workings: Workings): void {
  setUpRoutes(bench, workings);
  signInRoutes(bench, workings);
  passkeyRoutes(bench, workings);
  joinRoutes(bench, workings);
  recoverRoutes(bench, workings);
  ownAccountRoutes(bench, workings);
  accountsRoutes(bench, workings);
}
