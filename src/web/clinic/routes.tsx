import { createRootRoute, createRoute, createRouter, lazyRouteComponent } from "@tanstack/react-router";
import { Frame } from "./frame/index.tsx";
import { NotFound, PageError } from "./frame/Stray.tsx";

/** What may be written on a person's page; `correct` and `takeBack` name the entry they are about. */
const writings = [
  "changed",
  "event",
  "noted",
  "fitted",
  "person",
  "stoma",
  "newStoma",
  "skin",
  "consented",
  "correct",
  "takeBack",
] as const;
export type Writing = (typeof writings)[number];

export interface PersonSearch {
  write?: Writing;
  entry?: string;
  /** The stoma shown, where there are several. */
  stoma?: string;
}

function text(value: unknown): string | undefined {
  return value === undefined || value === null || value === "" ? undefined : String(value);
}

const root = createRootRoute({ component: Frame, notFoundComponent: NotFound, errorComponent: PageError });

const today = createRoute({
  getParentRoute: () => root,
  path: "/",
  component: lazyRouteComponent(() => import("./today/index.ts"), "TodayPage"),
});
const people = createRoute({
  getParentRoute: () => root,
  path: "/people",
  validateSearch: (search): { find?: string } => ({ find: text(search.find) }),
  component: lazyRouteComponent(() => import("./people/index.ts"), "PeoplePage"),
});
const addPerson = createRoute({
  getParentRoute: () => root,
  path: "/people/new",
  component: lazyRouteComponent(() => import("./admission/index.ts"), "AddPersonPage"),
});
const person = createRoute({
  getParentRoute: () => root,
  path: "/people/$personId",
  validateSearch: (search): PersonSearch => ({
    write: writings.find((writing) => writing === search.write),
    entry: text(search.entry),
    stoma: text(search.stoma),
  }),
  component: lazyRouteComponent(() => import("./person/index.ts"), "PersonPage"),
});
const fitting = createRoute({
  getParentRoute: () => root,
  path: "/people/$personId/stomas/$stomaId/fitting",
  component: lazyRouteComponent(() => import("./fitting/index.ts"), "FittingPage"),
});
const importLog = createRoute({
  getParentRoute: () => root,
  path: "/people/$personId/import",
  validateSearch: (search): { stoma?: string } => ({ stoma: text(search.stoma) }),
  component: lazyRouteComponent(() => import("./logImport/index.ts"), "ImportPage"),
});
const erase = createRoute({
  getParentRoute: () => root,
  path: "/people/$personId/erase",
  component: lazyRouteComponent(() => import("./erasure/index.ts"), "ErasePage"),
});
const protocol = createRoute({
  getParentRoute: () => root,
  path: "/protocol",
  component: lazyRouteComponent(() => import("./protocol/index.ts"), "ProtocolPage"),
});
const clinic = createRoute({
  getParentRoute: () => root,
  path: "/clinic",
  component: lazyRouteComponent(() => import("./setUp/index.ts"), "ClinicPage"),
});

const colleagues = createRoute({
  getParentRoute: () => root,
  path: "/clinic/colleagues",
  component: lazyRouteComponent(() => import("./colleagues/index.ts"), "ColleaguesPage"),
});
const audit = createRoute({
  getParentRoute: () => root,
  path: "/clinic/audit",
  validateSearch: (search): { person?: string; account?: string } => ({
    person: text(search.person),
    account: text(search.account),
  }),
  component: lazyRouteComponent(() => import("./audit/index.ts"), "AuditPage"),
});
const account = createRoute({
  getParentRoute: () => root,
  path: "/account",
  component: lazyRouteComponent(() => import("./account/index.ts"), "AccountPage"),
});
const setUp = createRoute({
  getParentRoute: () => root,
  path: "/set-up",
  component: lazyRouteComponent(() => import("./links/index.ts"), "SetUpPage"),
});
const join = createRoute({
  getParentRoute: () => root,
  path: "/join",
  component: lazyRouteComponent(() => import("./links/index.ts"), "JoinPage"),
});
const recover = createRoute({
  getParentRoute: () => root,
  path: "/recover",
  component: lazyRouteComponent(() => import("./links/index.ts"), "RecoverPage"),
});

export const router = createRouter({
  routeTree: root.addChildren([
    ...[today, people, addPerson, person, fitting, importLog, erase, protocol],
    ...[clinic, colleagues, audit, account, setUp, join, recover],
  ]),
  defaultPreload: "intent",
  scrollRestoration: true,
});

declare module "@tanstack/react-router" {
  interface Register {
    router: typeof router;
  }
}
