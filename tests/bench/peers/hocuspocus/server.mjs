/** The peer as its makers ship it: SQLite extension, default debounce. Reads PORT and DATA. */
import { join } from "node:path";
import { SQLite } from "@hocuspocus/extension-sqlite";
import { Server } from "@hocuspocus/server";

const database = join(process.env.DATA, "documents.sqlite");
const server = new Server({
  port: Number(process.env.PORT),
  address: "127.0.0.1",
  quiet: true,
  extensions: [new SQLite({ database })],
});
await server.listen();
