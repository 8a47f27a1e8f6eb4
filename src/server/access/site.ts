import type { FastifyRequest } from "fastify";
import { hostName } from "../guard/host.ts";

/** The site under which the bench is asked, as browsers see it. */
export interface Site {
  origin: string;
  /** The name that passkeys are bound to; null where the address is a number, or not secure, so that there are none. */
  rpId: string | null;
}

/** @param publicUrl where the bench is known by another address than it is asked under */
export function siteOf(request: FastifyRequest, publicUrl: URL | null): Site {
  const name = publicUrl?.hostname ?? hostName(request.headers.host) ?? "";
  // A browser leaves the usual port out of an origin; the guard of hosts has let no header through that is no address.
  const { origin } = publicUrl ?? new URL(`${request.protocol}://${request.headers.host}`);
  const isSecure = origin.startsWith("https:") || name === "localhost";
  const isNumber = /^[\d.]+$/.test(name) || name.includes(":");
  return { origin, rpId: isSecure && !isNumber && name !== "" ? name : null };
}
