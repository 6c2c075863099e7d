/**
 * Random bands with bad reception: at the end every phone and the server show the same board, and nothing that was
 * acknowledged or left unchallenged is lost. A failing trace is printed with its seed.
 */
import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { useVirtualClock } from "#tests/support/fake-network.ts";
import { laws } from "#tests/support/fuzz.ts";
import { boardOf, contentOf, type Intent, type Outcome, play, traces } from "#tests/support/trace.ts";

const RUNS = 120;
// Shrinking plays thousands of traces: repeat a failure with its seed and without `endOnFailure`.
const parameters = { ...laws(RUNS), endOnFailure: true };
const timeout = 120_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);

beforeEach(() => useVirtualClock(Date.UTC(2026, 2, 4, 19)));
afterEach(() => void vi.useRealTimers());

const expectAgreement = ({ phones, server }: Outcome): void => {
  const content = contentOf(server.ydoc);
  const board = boardOf(server.ydoc);
  for (const phone of phones) {
    const { ydoc, outbox } = phone.session();
    expect(outbox.saveState()).toMatchObject({ connection: "connected", unsent: 0, reason: "" });
    expect(contentOf(ydoc)).toEqual(content);
    expect(boardOf(ydoc)).toEqual(board);
    // What the screens followed step by step is what a fresh reading says.
    expect(phone.store().board()).toEqual(board);
  }
};

/** What the server said was saved is in its storage, whenever it is killed. */
const expectAcknowledgedKept = ({ lost }: Outcome): void => expect(lost).toEqual([]);

const byKey = (intents: readonly Intent[]): Map<string, Intent[]> => {
  const keys = new Map<string, Intent[]>();
  for (const intent of intents) {
    const name = `${intent.map} ${intent.key}`;
    keys.set(name, [...(keys.get(name) ?? []), intent]);
  }
  return keys;
};

/** A key only one phone wrote holds that phone's last value; a contested one holds somebody's last value. */
const expectIntent = ({ intents, server }: Outcome): void => {
  const content = contentOf(server.ydoc) as Record<string, Record<string, unknown>>;
  for (const [name, writes] of byKey(intents)) {
    const last = new Map(writes.map((write) => [write.phone, write.value]));
    const [{ map, key }] = writes as [Intent];
    expect([...last.values()], name).toContainEqual(content[map]?.[key]);
  }
};

/** A replayed take may get another number, because others have logged meanwhile: any number will do. */
const withoutNumber = (map: string, key: string): string =>
  map === "takes" || map === "slips" ? key.replace(/^([^/]+\/[^/]+\/)[^/]+/, "$1*") : key;

/** Whatever was written is still there in some form: only a refused replay may give a change up. */
const expectNothingVanished = ({ intents, phones, server }: Outcome): void => {
  const refused = new Set(
    phones.flatMap((phone) =>
      phone
        .session()
        .outbox.saveState()
        .refused.map(({ id }) => id),
    ),
  );
  const content = contentOf(server.ydoc) as Record<string, Record<string, unknown>>;
  const stored = new Set(
    Object.entries(content).flatMap(([map, values]) =>
      Object.keys(values).map((key) => `${map} ${withoutNumber(map, key)}`),
    ),
  );
  const vanished = intents.filter(
    ({ run, map, key }) => !refused.has(run) && !stored.has(`${map} ${withoutNumber(map, key)}`),
  );
  expect(vanished).toEqual([]);
};

const holds =
  (expectations: readonly ((outcome: Outcome) => void)[]) => async (trace: Parameters<typeof play>[0]) => {
    const outcome = await play(trace);
    try {
      for (const expectation of expectations) expectation(outcome);
    } finally {
      for (const phone of outcome.phones) await phone.close();
    }
  };

describe("[SYNC-1] whatever the network does", () => {
  test(
    "[SYNC-2] phones agree, acknowledged changes are on the disk, unchallenged ones survive",
    async () => {
      await fc.assert(
        fc.asyncProperty(traces("none"), holds([expectAgreement, expectAcknowledgedKept, expectIntent])),
        parameters,
      );
    },
    timeout,
  );

  test(
    "[SYNC-3] a phone that lost its copy of the board still delivers what its outbox kept",
    async () => {
      await fc.assert(
        fc.asyncProperty(
          traces("documents"),
          holds([expectAgreement, expectAcknowledgedKept, expectNothingVanished]),
        ),
        parameters,
      );
    },
    timeout,
  );
});
