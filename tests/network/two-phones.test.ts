import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { addSong } from "#shared/commands/add-song.ts";
import { createFakeNetwork, type FakeNetwork, useVirtualClock } from "#tests/support/fake-network.ts";
import { openPhone, type Phone } from "#tests/support/phone.ts";

const NOW = Date.UTC(2026, 2, 4, 19);
let network: FakeNetwork;
let phones: Phone[] = [];

beforeEach(() => {
  useVirtualClock(NOW);
  network = createFakeNetwork();
});
afterEach(async () => {
  for (const phone of phones) await phone.close();
  phones = [];
  vi.useRealTimers();
});

const open = async (name: string, more: object = {}): Promise<Phone> => {
  const phone = await openPhone({ network, name, ...more });
  phones.push(phone);
  return phone;
};

test("a song added on one phone is seen on the other and saved", async () => {
  const [left, right] = [await open("left"), await open("right")];
  await network.drain();
  const added = left.store().run(addSong, { title: "Marzipan Diesel" }, "Added");
  if (!added.ok) throw new Error(added.error.sentence);
  expect(left.session().outbox.stateOf(added.value.id)).toBe("on this phone");
  expect(left.session().outbox.saveState().unsent).toBe(1);
  await network.drain();
  expect(right.store().board().songs.get(added.value.id)?.song.title).toBe("Marzipan Diesel");
  expect(left.session().outbox.stateOf(added.value.id)).toBe("saved");
  expect(left.session().outbox.saveState()).toMatchObject({ connection: "connected", unsent: 0, reason: "" });
});
