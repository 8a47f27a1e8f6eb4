/** A transaction that lost against another and left no trace. @source PostgreSQL, appendix A: 40001, 40P01 */
const lostAgainstAnother = new Set(["40001", "40P01"]);

/**
 * The connection is gone. What was asked for may have been done or not.
 * @source PostgreSQL, appendix A: class 08 and 57P01 to 57P03; Node's system errors
 */
const connectionLost = new Set([
  "08000",
  "08001",
  "08003",
  "08006",
  "57P01",
  "57P02",
  "57P03",
  "ECONNREFUSED",
  "ECONNRESET",
  "EPIPE",
  "ETIMEDOUT",
  "ENOENT",
]);

/** What the driver says, without a code, of a connection that ended under it. */
const sayingLost = /^(Connection terminated|Client has encountered a connection error)/;

/** Waited for a lock, or for an answer, for longer than is allowed. */
const waitedTooLong = new Set(["55P03", "57014"]);

export function isLostAgainstAnother(error: unknown): boolean {
  return lostAgainstAnother.has(codeOf(error));
}

export function isConnectionLost(error: unknown): boolean {
  if (connectionLost.has(codeOf(error))) return true;
  if (error instanceof AggregateError) return error.errors.some(isConnectionLost);
  return error instanceof Error && sayingLost.test(error.message);
}

export function isWaitedTooLong(error: unknown): boolean {
  return waitedTooLong.has(codeOf(error));
}

function codeOf(error: unknown): string {
  const { code } = (error ?? {}) as { code?: unknown };
  return typeof code === "string" ? code : "";
}
