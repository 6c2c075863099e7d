import { equalityDeep } from "lib0/function";
import { idsFrom } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createRunner } from "#shared/commands/runner.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import type { KeptEntry } from "./local-board.ts";

const UNKNOWN =
  "This change was made by another version of this page and cannot be repeated. Make it again by hand.";
const BROKEN = "This change got lost on this device and cannot be repeated. Make it again by hand.";

/**
 * Runs a kept command again under its own id, time and author, so that it writes what it wrote the first time.
 * Does nothing where all that it wrote is there already. Returns why it was refused, or null.
 */
export const replay = (document: BoardDocument, entry: KeptEntry): string | null => {
  const { id, name, args, at, author, written } = entry;
  if (written.every(({ map, key, after }) => equalityDeep(document.get(map, key), after))) return null;
  const command = COMMANDS.get(name);
  if (command === undefined) return UNKNOWN;
  const runner = createRunner(document);
  try {
    const done = runner.run(command, args, { id, now: at, author, newId: idsFrom(id) });
    return done.ok ? null : done.error.sentence;
  } catch {
    return BROKEN;
  } finally {
    runner.close();
  }
};
