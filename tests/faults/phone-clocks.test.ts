/** Phones whose clocks are a year off, or jump by a year in the middle of an evening, among phones that are right. */
import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { isDisputed } from "#shared/board/card.ts";
import { allScores } from "#tests/support/all-scores.ts";
import { bandNight, NIGHT } from "#tests/support/band-night.ts";
import { seeded } from "#tests/support/big-board.ts";
import { createFakeNetwork, useVirtualClock } from "#tests/support/fake-network.ts";
import { laws } from "#tests/support/fuzz.ts";
import { openPhone, type Phone } from "#tests/support/phone.ts";
import { act } from "#tests/support/trace.ts";

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;
const YEAR = 365 * DAY;

beforeEach(() => useVirtualClock(NIGHT));
afterEach(() => void vi.useRealTimers());

const SHIFTS = [0, YEAR, -YEAR, 3 * MINUTE, -DAY] as const;

interface Step {
  readonly phone: number;
  readonly act: "mark" | "reword" | "jump" | "wait" | "apart" | "together";
  readonly n: number;
}

const steps: fc.Arbitrary<readonly Step[]> = fc.array(
  fc.record({
    phone: fc.nat(2),
    act: fc.constantFrom("mark", "mark", "mark", "reword", "reword", "jump", "wait", "apart", "together"),
    n: fc.nat(11),
  }),
  { minLength: 5, maxLength: 30 },
);

/** What the board says of the one detail, on a phone. */
const seenOn = (phone: Phone) => {
  const [file] = phone.store().board().songs.values();
  const [card] = file?.cards ?? [];
  const [status] = [...(file?.statuses.get(card?.id ?? "")?.values() ?? [])];
  return {
    level: status?.level ?? 0,
    text: card?.text,
    disputed: isDisputed(card?.versions.text ?? []),
  };
};

describe("[SYNC-1] a phone whose clock is wrong", () => {
  test("neither wins for ever nor taps in vain: what is done in sight of what stands always stands", async () => {
    let [marks, jumps] = [0, 0];
    const law = async (seed: number, history: readonly Step[]): Promise<void> => {
      const network = createFakeNetwork({ random: seeded(seed) });
      const shifts = [0, YEAR, -YEAR];
      const phones: Phone[] = [];
      for (const [i, name] of ["right", "ahead", "behind"].entries())
        phones.push(await openPhone({ network, name, now: () => Date.now() + (shifts[i] ?? 0) }));
      await network.drain();
      const [desk] = phones as [Phone, ...Phone[]];
      act(desk, "addSong", { title: "Marzipan Diesel" }, []);
      act(desk, "addPerson", { name: "Lucía Borrasco" }, []);
      const song = [...desk.store().board().songs.keys()][0];
      const member = [...desk.store().board().people.keys()][0];
      act(desk, "addDetail", { song, text: "Choke on 4-and" }, []);
      await network.drain();
      const card = desk
        .store()
        .board()
        .songs.get(song ?? "")?.cards[0]?.id;
      let apart = false;

      const perform = (phone: Phone, step: Step): void => {
        if (step.act === "mark") {
          const level = (seenOn(phone).level + 1 + (step.n % 3)) % 4;
          expect(act(phone, "markDetail", { card, member, level }, [])).toBe(true);
          expect(seenOn(phone).level).toBe(level);
          marks += 1;
        } else {
          const text = `Choke it, way ${marks} ${step.n} ${phone.name}`;
          expect(act(phone, "rewordDetail", { card, field: "text", text }, [])).toBe(true);
          expect(seenOn(phone)).toMatchObject({ text, disputed: false });
        }
      };

      for (const step of history) {
        const phone = phones[step.phone] as Phone;
        if (step.act === "jump") {
          jumps += 1;
          shifts[step.phone] = SHIFTS[step.n % SHIFTS.length] ?? 0;
        } else if (step.act === "wait") network.elapse((1 + step.n) * MINUTE);
        else if (step.act === "apart") {
          apart = true;
          for (const { name } of phones) network.cut(name);
        } else if (step.act === "together") {
          apart = false;
          await network.settle();
        } else {
          perform(phone, step);
          if (apart) continue;
          await network.drain();
          // Whatever anybody's clock says, everybody sees what was done last.
          for (const other of phones) expect(seenOn(other)).toEqual(seenOn(phone));
        }
      }
      await network.settle();
      for (const other of phones) expect(seenOn(other)).toEqual(seenOn(desk));
      for (const phone of phones) {
        perform(phone, { phone: 0, act: "mark", n: 1 });
        perform(phone, { phone: 0, act: "reword", n: 1 });
        await network.drain();
        for (const other of phones) expect(seenOn(other)).toEqual(seenOn(phone));
        expect(phone.session().outbox.saveState()).toMatchObject({ unsent: 0, refused: [] });
      }
      for (const phone of phones) await phone.close();
    };
    await fc.assert(fc.asyncProperty(fc.nat(), steps, law), {
      ...laws(150),
      seed: 20_263,
      endOnFailure: true,
    });
    expect(Math.min(marks, jumps)).toBeGreaterThan(50);
  }, 180_000);

  test("logs a take in the future, which hides no take of the others and can be taken back", async () => {
    const night = bandNight();
    const right = await night.open("right");
    let ahead = YEAR;
    const wrong = await night.open("wrong", { now: () => Date.now() + ahead });
    await night.network.drain();
    const song = night.run(right, "addSong", { title: "Marzipan Diesel", length: 200 }).id;
    const person = night.run(right, "addPerson", { name: "Lucía Borrasco" }).id;
    night.run(right, "addChair", { name: "Drums", instrument: "drums", holder: person });
    await night.network.drain();
    const take = { song, kind: "run", seats: [], feel: "clean" };
    const takes = () => right.store().board().songs.get(song)?.takes ?? [];
    const inRange = () =>
      [...allScores(right.store().board(), Date.now())].filter(
        ([name, value]) => name.endsWith(" score") && !(value >= 0 && value <= 1),
      );

    const today = { ...take, occasion: "r:2026-03-04" };
    const future = night.run(wrong, "logTake", { ...today, at: Date.now() + YEAR });
    await night.network.drain();
    const own = night.run(right, "logTake", { ...today, at: Date.now() });
    await night.network.drain();
    expect(takes()).toHaveLength(2);
    expect(inRange()).toEqual([]);
    // Its clock set right, the phone hears what is wrong with such a day, and its own next take is one more.
    ahead = 0;
    expect(() => night.run(wrong, "logTake", { ...today, at: Date.now() + YEAR })).toThrow(/in the future/);
    night.network.elapse(30 * MINUTE);
    night.run(wrong, "logTake", { ...today, at: Date.now() });
    await night.network.drain();
    expect(takes()).toHaveLength(3);
    expect(wrong.store().undo(future).ok).toBe(true);
    await night.network.settle();
    expect(takes().map(({ at }) => at > Date.now())).toEqual([false, false]);
    expect(inRange()).toEqual([]);
    expect(own.written).not.toEqual([]);
    expect(wrong.store().board()).toEqual(right.store().board());
  });

  test("[SYNC-3] saves as ever when its clock jumps a year while changes wait", async () => {
    for (const jump of [YEAR, -YEAR]) {
      const night = bandNight();
      let shift = 0;
      const phone = await night.open("phone", { now: () => Date.now() + shift });
      await night.network.drain();
      night.network.cut("phone");
      const before = night.run(phone, "addSong", { title: "Marzipan Diesel" });
      shift = jump;
      const after = night.run(phone, "addSong", { title: "Umbrella Season" });
      await phone.restart();
      expect(phone.session().outbox.saveState().unsent).toBe(2);
      await night.network.settle();
      for (const { id } of [before, after]) expect(phone.session().outbox.stateOf(id)).toBe("saved");
      expect(phone.session().outbox.saveState()).toMatchObject({ connection: "connected", refused: [] });
    }
  });
});
