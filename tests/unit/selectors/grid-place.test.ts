import { expect, test } from "vitest";
import { gridCount } from "#shared/selectors/grid-study/grid-count.ts";
import { gridsByPlace } from "#shared/selectors/grid-study/grids-by-place.ts";
import { clickGround } from "#shared/selectors/practice-click.ts";
import { smallBand } from "#tests/support/command-bench.ts";

const bandWithGrids = () => {
  const trial = smallBand();
  const bar = (voice: string, hits: string) => ({ chair: "drums", voice, hits });
  trial.done("describeGrid", {
    card: "choke",
    grid: { steps: 4, perBeat: 1, rows: [bar("hats", "xxxx"), bar("kick", "x-.x")] },
  });
  trial.done("describeGrid", {
    card: "root",
    of: "recorded",
    grid: { steps: 4, perBeat: 1, rows: [{ chair: "bass", hits: "x..." }] },
  });
  const file = trial.board().songs.get("diesel");
  if (file === undefined) throw new Error("no song");
  return file;
};

test("a song's grids stand under the places of their details, ours and the recording's alike", () => {
  const places = gridsByPlace(bandWithGrids());
  expect(places.flatMap(({ cards }) => cards.map(({ id }) => id)).sort()).toEqual(["choke", "root"]);
  expect(new Set(places.map(({ place }) => place)).size).toBe(places.length);
});

test("a grid is counted by what the section of its place says, else by the song", () => {
  const file = bandWithGrids();
  const [section] = file.sections;
  if (section === undefined) throw new Error("no form");
  const sections = [{ ...section, metre: "6/8", tempo: 70 }];
  const place = { where: { from: { section: section.id } } };
  expect(gridCount({ ...file, sections }, place)).toEqual({ metre: "6/8", tempo: 70 });
  expect(gridCount({ ...file, sections }, { where: {} })).toEqual({ metre: "4/4", tempo: 112 });
  const silent = [{ ...section, metre: "", tempo: null }];
  expect(gridCount({ ...file, sections: silent }, place)).toEqual({ metre: "4/4", tempo: 112 });
});

test("the click of a drummer's detail follows the kick among their rows", () => {
  const file = bandWithGrids();
  const card = file.cards.find(({ id }) => id === "choke");
  if (card === undefined) throw new Error("no detail");
  expect(clickGround(file, card, "drums").grid?.hits).toBe("x-.x");
});
