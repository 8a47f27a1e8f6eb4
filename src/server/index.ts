export type { Bench } from "./bench.ts";
export { type BenchOptions, buildServer } from "./buildServer.ts";
export type { ErrorBody } from "./errors/reply.ts";
export { type ErrorCode, errorTable } from "./errors/table.ts";
export { ListenError } from "./listenError.ts";
export { defaultPort, type Served, type ServeOptions, serve } from "./serve.ts";
