/**
 * Who is where on the board right now. Kept apart from the board store, so that somebody walking about never renders
 * the board: a listener hears of its own cell only. Nothing of it is stored, and nothing that comes in is trusted.
 */
import { type Id, isId } from "#shared/board/ids.ts";
import type { Identity } from "./identity.ts";
import { createListeners } from "./listeners.ts";
import {
  ALONE,
  type Place,
  type PresenceChannel,
  type PresenceKey,
  type PresenceScreen,
  type PresenceStore,
  type Present,
} from "./presence.ts";

const SCREENS: readonly PresenceScreen[] = ["board", "part", "song", "parts", "room", "elsewhere"];
const NOBODY = ALONE.everybody();

/** Moves within this time (ms) are told as one, and heard as one. */
const CALM_MS = 250;
/** More than this many states are not looked at. */
const MOST = 200;

const ELSEWHERE: Place = { screen: "elsewhere", song: null, chair: null };

const isIdOrNull = (value: unknown): value is Id | null => value === null || isId(value);

/** What one device shows, if it makes sense; any value whatever may come in. */
export const readPresent = (value: unknown): Present | null => {
  if (typeof value !== "object" || value === null) return null;
  const { member, device, song, chair, screen } = value as Record<string, unknown>;
  const known = SCREENS.find((name) => name === screen);
  if (known === undefined || !isId(device)) return null;
  if (!isIdOrNull(member) || !isIdOrNull(song) || !isIdOrNull(chair)) return null;
  return { member, device, screen: known, song, chair };
};

const personOf = ({ member, device }: Present): string =>
  member === null ? `unnamed ${device}` : `named ${member}`;
const depth = ({ song, chair }: Place): number => (song === null ? 0 : chair === null ? 1 : 2);
const nameOf = (song: Id, chair: Id): PresenceKey => `cell:${song}/${chair}`;

type Rooms = ReadonlyMap<PresenceKey, readonly Present[]>;

/** Sorts people into cells, each person once per cell and once in all. */
const sortIn = (present: readonly Present[]): Rooms => {
  const rooms = new Map<PresenceKey, Map<string, Present>>();
  const put = (key: PresenceKey, one: Present): void => {
    const room = rooms.get(key) ?? new Map<string, Present>();
    const before = room.get(personOf(one));
    if (before === undefined || depth(before) < depth(one)) room.set(personOf(one), one);
    rooms.set(key, room);
  };
  for (const one of present) {
    put("everybody", one);
    if (one.song !== null && one.chair !== null) put(nameOf(one.song, one.chair), one);
  }
  const order = (a: Present, b: Present): number => (personOf(a) < personOf(b) ? -1 : 1);
  return new Map([...rooms].map(([key, room]) => [key, [...room.values()].sort(order)]));
};

const sameRoom = (a: readonly Present[], b: readonly Present[]): boolean =>
  JSON.stringify(a) === JSON.stringify(b);

/** Opens the presence of this page. A guest's device sees the others and shows nothing. */
export const createPresenceStore = (channel: PresenceChannel, identity: Identity): PresenceStore => {
  const listeners = createListeners<PresenceKey>();
  const places: Place[] = [];
  let rooms: Rooms = new Map();
  let away = false;
  let told = "null";

  const own = (): Present | null => {
    const { member, writer, role } = identity.author();
    if (away || (role !== "leader" && role !== "member")) return null;
    return { member, device: writer, ...(places.at(-1) ?? ELSEWHERE) };
  };
  const tell = calmly(() => {
    const present = own();
    const text = JSON.stringify(present);
    if (text === told) return;
    told = text;
    channel.announce(present);
  });
  const isOther = ({ member, device }: Present): boolean => {
    const { member: me, writer } = identity.author();
    return device !== writer && (member === null || member !== me);
  };
  const hear = calmly(() => {
    const present = channel
      .others()
      .slice(0, MOST)
      .map(readPresent)
      .filter((one): one is Present => one !== null && isOther(one));
    const before = rooms;
    const next = new Map(sortIn(present));
    const changed: PresenceKey[] = [];
    for (const key of new Set([...before.keys(), ...next.keys()])) {
      const [was = NOBODY, is = NOBODY] = [before.get(key), next.get(key)];
      if (sameRoom(was, is)) next.set(key, was);
      else changed.push(key);
    }
    rooms = next;
    listeners.notify(changed);
  });
  const stops = [
    channel.subscribe(hear.soon),
    identity.subscribe(() => {
      tell.soon();
      hear.soon();
    }),
  ];
  tell.soon();
  hear.soon();

  return {
    stand: (place) => {
      const mine = { ...place };
      places.push(mine);
      tell.soon();
      return () => {
        const at = places.indexOf(mine);
        if (at >= 0) places.splice(at, 1);
        tell.soon();
      };
    },
    setAway: (now) => {
      away = now;
      tell.soon();
    },
    at: (song, chair) => rooms.get(nameOf(song, chair)) ?? NOBODY,
    everybody: () => rooms.get("everybody") ?? NOBODY,
    subscribe: listeners.subscribe,
    close: () => {
      for (const stop of stops) stop();
      tell.stop();
      hear.stop();
    },
  };
};

/** Runs `work` once for all that happens within a moment. */
const calmly = (work: () => void): { readonly soon: () => void; readonly stop: () => void } => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stopped = false;
  return {
    soon: () => {
      if (timer !== undefined || stopped) return;
      timer = setTimeout(() => {
        timer = undefined;
        work();
      }, CALM_MS);
    },
    stop: () => {
      stopped = true;
      clearTimeout(timer);
    },
  };
};
