/** Asks the interface of the bench as one browser would: it keeps the cookies that it is given. */
export class Asker {
  private readonly url: string;
  private readonly cookies = new Map<string, string>();

  constructor(url: string) {
    this.url = url;
  }

  /** @throws where the bench answers with an error */
  async ask<T>(path: string, body?: unknown, method = body === undefined ? "GET" : "POST"): Promise<T> {
    const headers: Record<string, string> = { cookie: this.cookieLine() };
    if (method !== "GET") Object.assign(headers, { "content-type": "application/json", origin: this.url });
    const response = await fetch(`${this.url}/api${path}`, {
      method,
      headers,
      body: method === "GET" ? undefined : JSON.stringify(body ?? {}),
    });
    for (const line of response.headers.getSetCookie()) this.keep(line);
    const text = await response.text();
    if (!response.ok) throw new Error(`${path}: ${response.status} ${text}`);
    return (text ? JSON.parse(text) : undefined) as T;
  }

  /** The cookies as a browser takes them. */
  forBrowser(): { name: string; value: string; url: string; httpOnly: boolean; sameSite: "Strict" }[] {
    return [...this.cookies].map(([name, value]) => ({
      name,
      value,
      url: this.url,
      httpOnly: true,
      sameSite: "Strict",
    }));
  }

  private cookieLine(): string {
    return [...this.cookies].map(([name, value]) => `${name}=${value}`).join("; ");
  }

  private keep(line: string): void {
    const [pair = ""] = line.split(";");
    const at = pair.indexOf("=");
    this.cookies.set(pair.slice(0, at), pair.slice(at + 1));
  }
}
