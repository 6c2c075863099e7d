/** Seasons that are closed at any moment of any night: cut networks, reloads, a second tab, a killed server. */
import "fake-indexeddb/auto";
import fc from "fast-check";
import { expect, test, vi } from "vitest";
import { startBandServer } from "#tests/support/band-server.ts";
import { type FollowingPhone, openFollowing } from "#tests/support/following-phone.ts";

const NAMES = ["leader", "phone", "tablet"] as const;
const who = fc.constantFrom(0, 1, 2);
const step = fc.oneof(
  { weight: 6, arbitrary: fc.record({ kind: fc.constant("add" as const), who }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant("cut" as const), who }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant("heal" as const), who }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("reload" as const), who }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant("close" as const) }) },
  {
    weight: 8,
    arbitrary: fc.record({ kind: fc.constant("deliver" as const), items: fc.integer({ min: 1, max: 25 }) }),
  },
);

test("[SYNC-6] every song that was ever added is there once, on every device, whatever happens in between", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 5, maxLength: 30 }), async (steps) => {
      const server = await startBandServer();
      const { network } = server;
      const visits = [0, 0, 0];
      const nameOf = (i: number): string => `${NAMES[i]}.${visits[i]}`;
      const phones: FollowingPhone[] = [];
      for (const i of [0, 1, 2]) {
        const grant = await server.admit(i === 0 ? "leader" : "member");
        phones.push(await openFollowing({ server, name: nameOf(i), grant }));
      }
      const of = (i: number): FollowingPhone => {
        const phone = phones[i];
        if (phone === undefined) throw new Error(`No phone ${i}`);
        return phone;
      };
      const titles: string[] = [];
      for (const one of steps) {
        if (one.kind === "add") {
          titles.push(`Song ${String(titles.length).padStart(2, "0")}`);
          of(one.who).run("addSong", { title: titles.at(-1) });
        } else if (one.kind === "cut") network.cut(nameOf(one.who));
        else if (one.kind === "heal") network.heal(nameOf(one.who));
        else if (one.kind === "close") await server.closeSeason();
        else if (one.kind === "deliver") for (let n = 0; n < one.items; n++) await network.deliverOne();
        else {
          const { device } = of(one.who);
          await of(one.who).close();
          visits[one.who] = (visits[one.who] ?? 0) + 1;
          phones[one.who] = await openFollowing({ server, name: nameOf(one.who), device });
        }
      }
      for (const i of [0, 1, 2]) network.heal(nameOf(i));
      const document = await server.document();
      await vi.waitFor(
        async () => {
          await network.drain();
          expect(phones.map((phone) => phone.titles())).toEqual([titles, titles, titles]);
          expect(phones.map((phone) => [phone.unsent(), phone.open().known.document])).toEqual(
            phones.map(() => [0, document]),
          );
        },
        { timeout: 20_000, interval: 5 },
      );
      await Promise.all(phones.map((phone) => phone.close()));
    }),
    { numRuns: 20, endOnFailure: true },
  );
}, 120_000);
