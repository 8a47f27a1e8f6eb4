import helmet from "@fastify/helmet";
import type { Bench } from "./bench.ts";

const aYearSeconds = 365 * 24 * 3600;

/**
 * What a browser may do with the bench's pages: load and ask nothing but the bench itself, show it in no frame, keep
 * no answer about a person. No inline script or style.
 * @param https whether the bench is reached over https, so that browsers are told to insist on it
 */
export function setHeaders(bench: Bench, https: boolean): void {
  bench.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        fontSrc: ["'self'"],
        imgSrc: ["'self'", "blob:"],
        connectSrc: ["'self'"],
        manifestSrc: ["'self'"],
        workerSrc: ["'self'"],
        frameSrc: ["'self'", "blob:"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        baseUri: ["'none'"],
        objectSrc: ["'none'"],
      },
    },
    referrerPolicy: { policy: "no-referrer" },
    strictTransportSecurity: https ? { maxAge: aYearSeconds, includeSubDomains: false } : false,
    xFrameOptions: { action: "deny" },
  });
  bench.addHook("onSend", async (request, reply) => {
    reply.header("permissions-policy", "camera=(self), geolocation=(), microphone=()");
    if ((request.routeOptions.url ?? request.url).startsWith("/api/"))
      reply.header("cache-control", "no-store");
  });
}
