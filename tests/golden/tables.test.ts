import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { expect, onTestFinished, test } from "vitest";
import { openSqliteStorage } from "#server/storage/sqlite-storage.ts";

const dumpOf = (version: number): Promise<string> =>
  readFile(new URL(`storage/tables-${version}.sql`, import.meta.url), "utf8");

const folderWith = async (dump: string): Promise<string> => {
  const folder = await mkdtemp(join(tmpdir(), "tightrow-tables-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  const db = new Database(join(folder, "tightrow.db"));
  db.exec(dump);
  db.close();
  return folder;
};

/** Every row of every table, to compare two openings. */
const contentOf = (folder: string): unknown => {
  const db = new Database(join(folder, "tightrow.db"), { readonly: true });
  const tables = db.prepare("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name").all();
  const rows = (tables as { name: string; sql: string }[])
    .filter(({ sql }) => sql.startsWith("CREATE TABLE"))
    .map(({ name }) => [name, db.prepare(`SELECT * FROM ${name}`).all()]);
  const version = db.pragma("user_version", { simple: true });
  db.close();
  return { tables, rows, version };
};

test("a data folder of the first released tables opens without loss", async () => {
  const storage = await openSqliteStorage(await folderWith(await dumpOf(1)));
  onTestFinished(() => storage.close());
  const board = "b-fuses-000000001";
  expect(await storage.board(board)).toEqual({
    id: board,
    name: "Six Spare Fuses",
    demo: false,
    createdAt: 1_900_000_000_000,
    retiredAt: null,
    erasedAt: null,
    document: board,
    season: 1,
    recoveryHash: null,
  });
  expect((await storage.board("b-demo-0000000001"))?.retiredAt).toBe(1_900_000_200_000);
  expect((await storage.currentDemo())?.id).toBe("b-demo-0000000002");
  expect(await storage.seasons(board)).toEqual([
    { board, document: board, season: 1, openedAt: 1_900_000_000_000, closedAt: null },
  ]);
  expect(await storage.links(board)).toMatchObject([
    { id: "l-horns-000000001", role: "member", secretHash: "secret-hash-1", expiresAt: 1_900_009_999_000 },
    { id: "l-crowd-000000001", role: "guest", revokedAt: 1_900_000_003_000, maxUses: null, uses: 0 },
  ]);
  expect(await storage.deviceByToken("token-hash-1")).toMatchObject({
    id: "d-anneli-00000001",
    role: "leader",
    memberId: "anneli",
    name: "",
    revokedAt: null,
    confirmed: false,
  });
  const rows = await storage.load(board);
  expect(rows.map(({ seq, device, member, bytes }) => [seq, device, member, [...bytes]])).toEqual([
    [3, "d-anneli-00000001", "anneli", [1, 2, 3]],
    [7, "d-karim-000000001", null, [0, 255]],
  ]);
  const next = storage.append({ document: board, device: "d", member: null, at: 1, bytes: Uint8Array.of(9) });
  expect(next).toBe(8);
});

test("opening an upgraded folder again changes nothing", async () => {
  const folder = await folderWith(await dumpOf(1));
  await (await openSqliteStorage(folder)).close();
  const once = contentOf(folder);
  await (await openSqliteStorage(folder)).close();
  expect(contentOf(folder)).toEqual(once);
});
