import pg from "pg";

/** 64-bit whole numbers: counts, cursors, milliseconds. None comes near what a number of JavaScript holds exactly. */
const int8 = 20;

const second = 1000;

/** Connections of one process; many processes share what the server allows (100 unless it was told otherwise). */
const mostConnections = 10;

/** Longest waits, ms; an address can set others (`?statement_timeout=…`). */
const usualWaits = {
  /** Opening a connection, or getting one of the pool. */
  connectionTimeoutMillis: 10 * second,
  /** One statement; the longest is a batch of an import. */
  statement_timeout: 30 * second,
  /** Another transaction of the same clinic. */
  lock_timeout: 10 * second,
  /** A process that hangs must not hold a clinic. */
  idle_in_transaction_session_timeout: 60 * second,
};

const endlessWaits = {
  connectionTimeoutMillis: usualWaits.connectionTimeoutMillis,
  statement_timeout: 0,
  lock_timeout: 0,
  idle_in_transaction_session_timeout: 0,
};

/** Connections to a database. @param patient for migrations, which wait for each other and take what they take */
export function openPool(url: string, { patient = false }: { patient?: boolean } = {}): pg.Pool {
  const pool = new pg.Pool({
    ...(patient ? endlessWaits : usualWaits),
    connectionString: url,
    max: mostConnections,
    application_name: "roundel",
    keepAlive: true,
    types: {
      getTypeParser: (oid: number, format?: "text" | "binary") =>
        oid === int8 ? Number : pg.types.getTypeParser(oid, format as "text"),
    } as pg.CustomTypesConfig,
  });
  // A connection that ends while nobody waits for it is replaced by the pool; unheard, it would end the process.
  pool.on("error", () => {});
  pool.on("connect", (client) => client.on("error", () => {}));
  return pool;
}
