import * as Y from "yjs";
import { LEVELS } from "#shared/board/status.ts";
import { idsFrom } from "#shared/commands/command.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { createUpdateFolder } from "#shared/document/fold-updates.ts";
import type { HistoryRow } from "#shared/history/history.ts";
import type { DeviceInfo } from "#shared/protocol/api.ts";

const HOUR = 3_600_000;
/** The demo band's story takes about this long. */
const SEASON_MS = 70 * 24 * HOUR;
/** One row in so many was handed over by another phone than its author's. */
const PASSED_ON = 40;

/** Who wrote an update: the person whose phone its keys name, else the leader, whose commands need no such key. */
const authors = (updates: readonly Uint8Array[]): readonly string[] => {
  const folder = createUpdateFolder();
  return updates.map((bytes) => {
    const { changes } = folder.apply(bytes);
    const writer = changes.map(({ key }) => /demo-phone-(\w+)/.exec(key)?.[1]).find(Boolean);
    return `demo-${writer ?? "tomasz"}`;
  });
};

/** Marks one detail after another on the leader's phone until so many updates were made. */
const goOnMarking = (ydoc: Y.Doc, now: number, updates: readonly unknown[], rows: number): void => {
  const runner = createRunner(createBoardDocument(ydoc));
  const author = { member: "demo-tomasz", writer: "demo-phone-tomasz", role: "leader" } as const;
  const cards = [...runner.board().songs.values()].flatMap((file) => file.cards.map(({ id }) => id));
  for (let n = 0; updates.length < rows; n++) {
    const id = `on-${n}`;
    const card = cards[n % cards.length] ?? "";
    const level = LEVELS[Math.floor(n / cards.length) % LEVELS.length] ?? 0;
    runner.run(
      markDetail,
      { card, member: "demo-tomasz", level },
      { id, now: now + n, newId: idsFrom(id), author },
    );
  }
  runner.close();
};

/**
 * The demo band's log as a server would have it: one row per command, spread over the season, by their phones. It goes
 * on until it has at least so many rows.
 */
export const fakePast = (
  now: number,
  devices: readonly DeviceInfo[],
  rows: number,
): readonly HistoryRow[] => {
  const updates: Uint8Array[] = [];
  const ydoc = new Y.Doc();
  ydoc.on("update", (update: Uint8Array) => void updates.push(update));
  seedDemo(ydoc, now, "Europe/Lisbon");
  goOnMarking(ydoc, now, updates, rows);
  ydoc.destroy();
  const who = authors(updates);
  const deviceOf = (member: string): string =>
    devices.find(({ memberId }) => memberId === member)?.id ?? `phone of ${member}`;
  return updates.map((bytes, i) => {
    const own = who[i] ?? "demo-tomasz";
    const member = i % PASSED_ON === PASSED_ON - 1 && own !== "demo-lucia" ? "demo-lucia" : own;
    return {
      seq: i + 1,
      at: Math.round(now - HOUR - (SEASON_MS * (updates.length - i)) / updates.length),
      device: deviceOf(member),
      member,
      bytes,
    };
  });
};
