import * as Y from "yjs";
import { type Command, idsFrom } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";

/** Runs a command by name on somebody else's device; its update then arrives in the page. */
export interface Remote {
  (name: string, args: unknown): void;
  /** From now on the other device does not hear of the page's changes; the page still hears of its. */
  readonly cutOff: () => void;
}

/** Another replica of the page's document, which belongs to the leader's other device. */
export const createRemote = (ydoc: Y.Doc, now: () => number): Remote => {
  const other = new Y.Doc();
  Y.applyUpdate(other, Y.encodeStateAsUpdate(ydoc));
  let hears = true;
  ydoc.on("update", (update: Uint8Array, origin: unknown) => {
    if (hears && origin !== "remote") Y.applyUpdate(other, update);
  });
  const runner = createRunner(createBoardDocument(other));
  let runs = 0;
  const run = (name: string, args: unknown): void => {
    const command = COMMANDS.get(name) as Command<unknown> | undefined;
    if (command === undefined) throw new Error(`no command called ${name}`);
    runs += 1;
    const id = `remote-${runs}`;
    const author = { member: "demo-tomasz", writer: "another-device", role: "leader" } as const;
    const before = Y.encodeStateVector(other);
    const done = runner.run(command, args, { id, now: now(), newId: idsFrom(id), author });
    if (!done.ok) throw new Error(done.error.sentence);
    Y.applyUpdate(ydoc, Y.encodeStateAsUpdate(other, before), "remote");
  };
  const cutOff = (): void => {
    hears = false;
  };
  return Object.assign(run, { cutOff });
};
