/** The address that the bench should answer at cannot be had; the message is for whoever started it. */
export class ListenError extends Error {
  readonly code: "portTaken" | "portForbidden" | "addressUnknown";
  readonly host: string;
  readonly port: number;
  constructor(code: ListenError["code"], host: string, port: number) {
    super(sentences[code](host, port));
    this.name = "ListenError";
    this.code = code;
    this.host = host;
    this.port = port;
  }
}

const sentences: Record<ListenError["code"], (host: string, port: number) => string> = {
  portTaken: (_host, port) =>
    `Port ${port} is taken by another program, or by a bench that runs already. Stop it, or choose another with --port.`,
  portForbidden: (_host, port) =>
    `Port ${port} may not be used by this account. Choose one above 1023 with --port.`,
  addressUnknown: (host) =>
    `This machine has no address ${host}. Leave --host out to stay on this machine alone.`,
};

const codes: Record<string, ListenError["code"]> = {
  EADDRINUSE: "portTaken",
  EACCES: "portForbidden",
  EADDRNOTAVAIL: "addressUnknown",
  ENOTFOUND: "addressUnknown",
};

/** The error as its reader needs it; anything unforeseen stays as it was. */
export function listenError(error: unknown, host: string, port: number): unknown {
  const code = codes[(error as { code?: string }).code ?? ""];
  return code ? new ListenError(code, host, port) : error;
}
