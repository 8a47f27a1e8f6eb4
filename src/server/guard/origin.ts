import type { FastifyRequest } from "fastify";
import type { Bench } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";

const reads = ["GET", "HEAD", "OPTIONS"];

/**
 * Lets only the bench's own pages and programs that are no browser write. Browsers say where a request comes from;
 * a form of another page can send neither JSON nor hide its origin.
 */
export function refuseForeignWrites(bench: Bench, publicUrl: URL | null): void {
  bench.addHook("onRequest", async (request) => {
    if (reads.includes(request.method)) return;
    if (!isOwnOrigin(request, publicUrl)) throw new Refusal("originRefused");
    if (!/^(application\/json|multipart\/form-data)\b/i.test(request.headers["content-type"] ?? "")) {
      throw new Refusal("wrongType");
    }
  });
}

function isOwnOrigin({ headers, protocol }: FastifyRequest, publicUrl: URL | null): boolean {
  const { origin, host } = headers;
  const site = headers["sec-fetch-site"];
  if (site !== undefined && site !== "same-origin" && site !== "none") return false;
  if (origin === undefined || origin.toLowerCase() === publicUrl?.origin) return true;
  return origin.toLowerCase() === `${protocol}://${host}`.toLowerCase();
}
