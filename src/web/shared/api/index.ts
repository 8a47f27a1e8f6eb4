export * from "./entries.ts";
export * from "./queries.ts";
export { type Reach, useReach } from "./reach.ts";
export { ApiError, ask, askFile } from "./request.ts";
