import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { entriesOf } from "#shared/history/entries.ts";
import { entryRestore } from "#shared/history/entry-restore.ts";
import { foldHistory, type HistoryRow } from "#shared/history/history.ts";
import { valuesAt } from "#shared/history/past-values.ts";
import { restoreWrites } from "#shared/history/restore-writes.ts";
import { restorePreview } from "#shared/selectors/history/restore-preview.ts";
import { readingOf } from "#tests/support/board-reading.ts";
import { NOON, smallBand } from "#tests/support/command-bench.ts";
import { ALL_CASES } from "#tests/support/command-cases/all-cases.ts";
import { RUN, SLOT, take } from "#tests/support/command-cases/case.ts";

/** The small band with its past from here on; every run is a row, a day apart so that no two are one entry. */
const recorded = () => {
  const trial = smallBand();
  const base = Y.encodeStateAsUpdate(trial.ydoc);
  const rows: HistoryRow[] = [];
  trial.ydoc.on("update", (bytes: Uint8Array) => {
    const at = NOON + rows.length * 86_400_000;
    rows.push({ seq: rows.length + 1, at, device: "phone", member: "lucia", bytes });
  });
  return { trial, history: () => foldHistory(base, rows) };
};

describe("what a restore would change", () => {
  test("is counted by kind, from what comes back to what is withdrawn", () => {
    const { trial, history } = recorded();
    const { done } = trial;
    done("removeSong", { id: "umbrella" });
    done("addSong", { title: "Paper Lantern" }, {}, "paper");
    done("addDetail", { song: "paper", text: "Hum it" });
    done("reviseSong", { song: "diesel", fields: { tempo: 120, key: "Fm" } });
    done("markDetail", { card: "choke", member: "lucia", level: 3 });
    done("markDetail", { card: "root", member: "minjae", level: 1 });
    done("rewordDetail", { card: "root", field: "text", text: "Stay low" });
    done("logTake", take);
    done("flagSlip", { song: "diesel", take: SLOT, chair: "bass", severity: 2 });
    done("waiveGate", { gig: "harbour", song: "diesel", gate: "debut", note: "" });
    done("startBand", { name: "Five Fuses", timeZone: "Europe/Lisbon" });
    const writes = restoreWrites(trial.document, valuesAt(history(), 0));
    expect(restorePreview(writes).map(({ words }) => words)).toEqual([
      "1 song comes back",
      "1 song goes off the board",
      "the band's own entries go back to how they were",
      "1 song goes back to how it was",
      "1 wording goes back",
      "2 statuses go back",
      "1 take is withdrawn",
      "1 slip is withdrawn",
      "1 gate let pass is withdrawn",
    ]);
  });

  test("is nothing when nothing has changed", () => {
    const { trial, history } = recorded();
    trial.done("reviseSong", { song: "diesel", fields: { tempo: 120 } });
    expect(restorePreview(restoreWrites(trial.document, valuesAt(history(), 1)))).toEqual([]);
  });
});

describe.each(Object.entries(ALL_CASES))("[HIST-5] what %s did", (name, { args, as }) => {
  test("is put back by the command its entries name", () => {
    const { trial, history } = recorded();
    const before = readingOf(trial.board());
    trial.done(name, args, as, RUN);
    for (const entry of entriesOf(history())) {
      const restore = entryRestore(entry, history(), trial.document);
      // What came in one go with its song goes off the board with it.
      if (restore !== null) trial.done(restore.name, restore.args);
    }
    expect(readingOf(trial.board())).toEqual(before);
  });
});

describe("[HIST-5] putting one thing back", () => {
  test("names the command that brings back what was taken off", () => {
    const { trial, history } = recorded();
    trial.done("removeSong", { id: "diesel" });
    trial.done("restoreSong", { id: "diesel" });
    trial.done("removeSection", { song: "diesel", section: "verse" });
    trial.done("removeDetail", { id: "choke" });
    trial.done("withdrawTake", { song: "diesel", take: SLOT });
    const told = entriesOf(history());
    const named = told.map((entry) => entryRestore(entry, history(), trial.document)?.name ?? null);
    // The song is on the board again, so neither its removal nor its return has anything to put back but the latter.
    expect(named).toEqual([null, "putBack", "restoreSection", "restoreDetail", "putBack"]);
  });

  test("keeps what was changed elsewhere since", () => {
    const { trial, history } = recorded();
    trial.done("reviseSong", { song: "diesel", fields: { tempo: 120 } });
    trial.done("reviseSong", { song: "diesel", fields: { key: "Fm" } });
    const [first] = entriesOf(history());
    const restore = first && entryRestore(first, history(), trial.document);
    trial.done(restore?.name ?? "", restore?.args);
    expect(trial.board().songs.get("diesel")?.song).toMatchObject({ tempo: 112, key: "Fm" });
  });

  test("leaves a value alone that somebody changed after it was planned", () => {
    const { trial, history } = recorded();
    trial.done("reviseSong", { song: "diesel", fields: { tempo: 120 } });
    trial.done("rewordDetail", { card: "root", field: "text", text: "Stay low" });
    trial.done("markDetail", { card: "choke", member: "lucia", level: 3 });
    const writes = restoreWrites(trial.document, valuesAt(history(), 0));
    expect(writes).toHaveLength(3);
    trial.done("reviseSong", { song: "diesel", fields: { tempo: 99 } });
    trial.done("rewordDetail", { card: "root", field: "text", text: "Stay lower" });
    trial.done("markDetail", { card: "choke", member: "lucia", level: 0 });
    const before = readingOf(trial.board());
    trial.done("restoreBoard", { moment: NOON, writes });
    expect(readingOf(trial.board())).toEqual(before);
  });
});
