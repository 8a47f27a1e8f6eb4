import type { FastifyReply, FastifyRequest } from "fastify";
import type { Listener } from "../../record/accounts/index.ts";
import { deviceMs } from "../../record/accounts/index.ts";

/** The cookies of one listener. Ports share cookies, so that each has names of its own. */
export class Cookies {
  private readonly secure: boolean;
  private readonly session: string;
  private readonly device: string;

  /** @param secure whether the listener is reached over https: then no plain-http page can set or see the cookies */
  constructor(listener: Listener, secure: boolean) {
    const name = listener === "bench" ? "roundel" : "roundel-home";
    const prefix = secure ? "__Host-" : "";
    this.secure = secure;
    this.session = `${prefix}${name}`;
    this.device = `${prefix}${name}-device`;
  }

  sessionOf({ cookies }: FastifyRequest): string | null {
    return asSecret(cookies[this.session]);
  }

  deviceOf({ cookies }: FastifyRequest): string | null {
    return asSecret(cookies[this.device]);
  }

  /** Without an age: the browser forgets it when it is closed, the server sooner. */
  setSession(reply: FastifyReply, secret: string): void {
    reply.setCookie(this.session, secret, this.options);
  }

  clearSession(reply: FastifyReply): void {
    reply.clearCookie(this.session, this.options);
  }

  setDevice(reply: FastifyReply, secret: string): void {
    reply.setCookie(this.device, secret, { ...this.options, maxAge: deviceMs / 1000 });
  }

  private get options() {
    return { path: "/", httpOnly: true, sameSite: "strict", secure: this.secure } as const;
  }
}

/** What the bench never gave out is not looked up. */
function asSecret(text: string | undefined): string | null {
  return text !== undefined && /^[\w-]{43}$/.test(text) ? text : null;
}
