export { guardRoutes } from "./access.ts";
export { Cookies } from "./cookies.ts";
export { demoMayEnter } from "./demo.ts";
export { confirmed, countedAddress, countedFor, networkOf, signIn, throttled } from "./entering.ts";
export { isLoopback, loopbackNames } from "./loopback.ts";
export { mayWrite, type Rule, rulesAt } from "./rules.ts";
export { signedInOf } from "./signedIn.ts";
export { type Site, siteOf } from "./site.ts";
