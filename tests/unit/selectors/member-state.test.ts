import fc from "fast-check";
import { expect, test } from "vitest";
import { scoreMemberOver } from "#shared/readiness/member-score.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { maySeeMember, memberState } from "#shared/selectors/member-state.ts";
import { laws } from "#tests/support/fuzz.ts";
import { history, MEMBERS } from "#tests/support/histories.ts";

test("a member's state is the mean the model defines, over the same songs, today and on the night", () => {
  fc.assert(
    fc.property(fc.array(history, { maxLength: 4 }), fc.constantFrom(...MEMBERS), (inputs, member) => {
      const songs = inputs.map((input) => ({
        today: scoreSong({ ...input, t: input.asOf }),
        night: scoreSong(input),
      }));
      const today = scoreMemberOver(
        songs.map((song) => song.today),
        member,
      );
      const night = scoreMemberOver(
        songs.map((song) => song.night),
        member,
      );
      const expected = today === null || night === null ? null : { today, night };
      expect(memberState(songs, member)).toEqual(expected);
      // What is remembered from the first reading must not change the second.
      expect(memberState(songs, member)).toEqual(expected);
    }),
    laws(),
  );
});

test("only the member and the leader may see it", () => {
  expect(maySeeMember({ member: "lucia", role: "member" }, "lucia")).toBe(true);
  expect(maySeeMember({ member: "lucia", role: "member" }, "tomasz")).toBe(false);
  expect(maySeeMember({ member: null, role: "guest" }, "lucia")).toBe(false);
  expect(maySeeMember({ member: "tomasz", role: "leader" }, "lucia")).toBe(true);
  expect(maySeeMember({ member: null, role: "leader" }, null)).toBe(false);
});
