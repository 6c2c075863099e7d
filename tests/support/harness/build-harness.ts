import { mkdir, writeFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import { build } from "vite";
import * as Y from "yjs";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { BOARDS, HARNESS_NOW, type HarnessBoard } from "./harness-boards.ts";
import { seedMany } from "./seed-many.ts";

/** A board as the bytes a page takes in: seeding it there would cost each test more than the rest of the page. */
const bytesOf = (board: HarnessBoard): Uint8Array => {
  const ydoc = new Y.Doc();
  if (board !== "empty") seedDemo(ydoc, HARNESS_NOW, "Europe/Lisbon");
  if (board === "many") seedMany(ydoc, HARNESS_NOW);
  return Y.encodeStateAsUpdate(ydoc);
};

/** Builds the harness as the product is built, with its boards beside it, into `outDir`, which lies under node_modules. */
export const buildHarness = async (outDir: string): Promise<void> => {
  await build({
    configFile: resolve("tests/support/harness/vite.config.ts"),
    logLevel: "error",
    build: { outDir, emptyOutDir: true },
  });
  await mkdir(join(outDir, "boards"));
  await Promise.all(BOARDS.map((board) => writeFile(join(outDir, "boards", `${board}.bin`), bytesOf(board))));
};
