export type { Bench } from "./bench.ts";
export { type BenchOptions, buildServer } from "./buildServer.ts";
export type { ErrorBody } from "./errors/reply.ts";
export { type ErrorCode, errorTable } from "./errors/table.ts";
export { buildHome, type HomeOptions } from "./home/index.ts";
export { ListenError } from "./listenError.ts";
export type { Reach, Tls } from "./listener.ts";
export { UnsafeReach } from "./reach.ts";
export { defaultPort, type Place, type Served, type ServeOptions, serve } from "./serve.ts";
