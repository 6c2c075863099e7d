import { expect, test } from "vitest";
import { helpText, readSettings, unknownSettings } from "#server/settings/settings.ts";

test("an empty environment means the defaults: a port of its own, open to phones in the network", () => {
  const settings = readSettings({ PATH: "/bin", TIGHTROW_PORT: "" });
  expect(settings).toMatchObject({
    ok: true,
    value: { port: 4400, host: "0.0.0.0", data: "./data", demo: true },
  });
});

test("values are read as what they are", () => {
  const settings = readSettings({
    TIGHTROW_PORT: "8080",
    TIGHTROW_DEMO: "off",
    TIGHTROW_ORIGINS: "https://a.example.org, http://b.example.org:8080/",
    TIGHTROW_PUBLIC_URL: "https://board.example.org/",
  });
  expect(settings).toMatchObject({
    ok: true,
    value: {
      port: 8080,
      demo: false,
      origins: ["https://a.example.org", "http://b.example.org:8080"],
      publicUrl: "https://board.example.org",
    },
  });
});

test("each wrong value gets a sentence that names it", () => {
  const settings = readSettings({
    TIGHTROW_PORT: "65536",
    TIGHTROW_DEMO: "yes",
    TIGHTROW_LOG: "loud",
    TIGHTROW_ORIGINS: "https://a.example.org/path",
    TIGHTROW_PUBLIC_URL: "ftp://a.example.org",
  });
  if (settings.ok) throw new Error("all of these are wrong");
  expect(settings.error).toEqual([
    'TIGHTROW_PORT must be a whole number from 0 to 65535; it is "65536".',
    'TIGHTROW_PUBLIC_URL must look like https://board.example.org; it is "ftp://a.example.org".',
    expect.stringMatching(/^TIGHTROW_ORIGINS must be origins .* not https:\/\/a\.example\.org\/path/),
    'TIGHTROW_DEMO must be on or off; it is "yes".',
    'TIGHTROW_LOG must be one of info, warn, error, silent; it is "loud".',
  ]);
});

test("names no setting reads are found, so that a typing mistake does not pass for the default", () => {
  expect(unknownSettings({ TIGHTROW_PROT: "1", TIGHTROW_PORT: "1", HOME: "/" })).toEqual(["TIGHTROW_PROT"]);
});

test("the help lists every setting that is read, with its default", () => {
  const help = helpText([]);
  const named = [...help.matchAll(/^ {2}(TIGHTROW_[A-Z_]+)/gm)].map(([, name]) => name ?? "");
  expect(unknownSettings(Object.fromEntries(named.map((name) => [name, ""])))).toEqual([]);
  const settings = readSettings({});
  expect(settings.ok && named.length).toBe(settings.ok && Object.keys(settings.value).length);
  expect(help).toContain("TIGHTROW_PORT (4400)");
});
