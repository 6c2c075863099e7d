import { expect, test } from "vitest";
import { depLinkFor } from "#shared/selectors/dep-link.ts";

const GIG = { id: "harbour", name: "Harbour night", date: "2031-05-08" };
const KARIM = { id: "karim", name: "Karim Belhossat" };

test("a dep's link ends with the day after the gig, in the band's own zone", () => {
  // Lisbon is an hour ahead of UTC in May.
  const link = depLinkFor(GIG, KARIM, "Europe/Lisbon", Date.UTC(2031, 4, 6));
  expect(link).toEqual({
    role: "dep",
    memberId: "karim",
    gig: "harbour",
    label: "Karim Belhossat, Harbour night",
    expiresAt: Date.UTC(2031, 4, 9, 23) - 1,
  });
});

test("there is none once that day is over, and a long way ahead it lasts sixty days", () => {
  expect(depLinkFor(GIG, KARIM, "UTC", Date.UTC(2031, 4, 9, 12))).not.toBeNull();
  expect(depLinkFor(GIG, KARIM, "UTC", Date.UTC(2031, 4, 10))).toBeNull();
  const early = Date.UTC(2031, 0, 1);
  expect(depLinkFor(GIG, KARIM, "UTC", early)?.expiresAt).toBe(early + 60 * 86_400_000);
});
