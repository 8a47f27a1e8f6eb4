import type { TestProject } from "vitest/node";
import { startServer } from "./server.ts";

/** One server for all test files of the project. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const server = await startServer();
  project.provide("postgresUrl", server.url);
  return () => server.stop();
}

declare module "vitest" {
  export interface ProvidedContext {
    postgresUrl: string;
  }
}
