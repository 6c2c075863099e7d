/** A measured tempo against the one a song is meant to have. */
import { distancePercent, driftPercent } from "../music/tempo.ts";

/** To a tenth of a percent, as the members of a band compare it. */
const tenths = (percent: number): number => Math.round(percent * 10) / 10;

/** `2.7 % over 112`, `1 % under 112`, `right on 112`; empty without a target. */
export const besideTarget = (tempo: number, target: number | null): string => {
  if (target === null) return "";
  const off = tenths(distancePercent(tempo, target));
  if (off === 0) return `right on ${target}`;
  return `${Math.abs(off)} % ${off > 0 ? "over" : "under"} ${target}`;
};

/** At a glance, in whole percent: `+3 % fast`, `−2 % slow`, `on it`; empty without a target. */
export const offWords = (tempo: number, target: number | null): string => {
  if (target === null) return "";
  const off = Math.round(distancePercent(tempo, target));
  if (off === 0) return "on it";
  return off > 0 ? `+${off} % fast` : `−${-off} % slow`;
};

/** `2.7 % faster from start to end`, `steady from start to end`; empty unless both were measured. */
export const driftWords = (start: number | null, end: number | null): string => {
  if (start === null || end === null) return "";
  const drift = tenths(driftPercent(start, end));
  if (drift === 0) return "steady from start to end";
  return `${Math.abs(drift)} % ${drift > 0 ? "faster" : "slower"} from start to end`;
};

/** How much of a difference people notice; common practice, no published source. */
const UNNOTICED = 2;
const FELT = 4;

/** What a distance or a drift in percent means on a dance floor. */
export const feltWords = (percent: number): "hardly noticed" | "players feel it" | "dancers feel it" => {
  const size = Math.abs(percent);
  return size <= UNNOTICED ? "hardly noticed" : size <= FELT ? "players feel it" : "dancers feel it";
};

/** Both in one line, as the form and its fold say it; empty while nothing was measured. */
export const tempoWords = (start: number | null, end: number | null, target: number | null): string => {
  const one = (tempo: number | null, where: string): string => {
    if (tempo === null) return "";
    const beside = besideTarget(tempo, target);
    return `${tempo} at the ${where}${beside === "" ? "" : `, ${beside}`}`;
  };
  const drift = driftWords(start, end);
  const said = [one(start, "start"), one(end, "end")].filter((words) => words !== "").join("; ");
  return drift === "" || start === null || end === null
    ? said
    : `${said}: ${drift}, ${feltWords(driftPercent(start, end))}`;
};
