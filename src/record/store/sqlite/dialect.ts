import {
  CompiledQuery,
  type DatabaseConnection,
  type Driver,
  SqliteDialect,
  type SqliteDialectConfig,
  SqliteDriver,
} from "kysely";

/**
 * SQLite whose transactions take the write lock at once. One that reads first and writes later fails without
 * waiting when another process wrote in between, such as an import at the command line beside the bench.
 */
export class WritingFirstDialect extends SqliteDialect {
  private readonly given: SqliteDialectConfig;

  constructor(given: SqliteDialectConfig) {
    super(given);
    this.given = given;
  }

  override createDriver(): Driver {
    return new WritingFirstDriver(this.given);
  }
}

class WritingFirstDriver extends SqliteDriver {
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw("begin immediate"));
  }

  /**
   * Where the disk fails or is full, SQLite takes the transaction back by itself; a second time would be a failure of
   * its own, and hide the first.
   */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    await super.rollbackTransaction(connection).catch((error) => {
      if (!/no transaction is active/.test(String(error))) throw error;
    });
  }
}
