import { useCallback, useEffect, useRef, useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useDraft } from "#client/pieces/use-draft.ts";
import { useNames } from "#client/pieces/use-names.ts";
import {
  useAuthor,
  useBand,
  useBoardId,
  useBoardStore,
  useChairs,
  useGigs,
  usePeople,
  useViewpoint,
} from "#client/store/hooks.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { Feel } from "#shared/board/take.ts";
import { logTake } from "#shared/commands/log-take.ts";
import { joinedTake, joinSentence } from "#shared/selectors/evening-log.ts";
import type { WhoIsHere } from "#shared/selectors/seating.ts";
import {
  keepTakeDraft,
  keptTakeDraft,
  nextTake,
  type TakeDraft,
  type TakeFault,
  type TakeScene,
  takeArgs,
  takeWords,
} from "#shared/selectors/take-draft.ts";
import { useHere } from "./use-here.ts";
import { useWait } from "./use-waiting-slips.ts";

/** How often (ms) it is looked again whether somebody else's take is still the same one. */
const LOOK_AGAIN_MS = 20_000;

export interface OpenTake {
  readonly draft: TakeDraft;
  readonly change: (fields: Partial<TakeDraft>) => void;
  readonly here: WhoIsHere;
  readonly setHere: (here: WhoIsHere) => void;
  readonly scene: TakeScene;
  /** What a result would log, in words. */
  readonly words: string;
  /** What stands in the way; null = a tap logs it. */
  readonly fault: TakeFault | null;
  /** Another phone has just logged this take. */
  readonly joins: string | null;
  /** How often this screen has logged something. */
  readonly logged: number;
  readonly log: (feel: Feel) => void;
}

/** Renders again now and then: somebody else's take stops being the same one after a while. */
const useNowAndThen = (): void => {
  const [, lookAgain] = useState(0);
  useEffect(() => {
    const timer = window.setInterval(() => lookAgain((n) => n + 1), LOOK_AGAIN_MS);
    return () => window.clearInterval(timer);
  }, []);
};

const useScene = (file: SongFile, here: WhoIsHere): TakeScene => {
  const store = useBoardStore();
  const { member } = useAuthor();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const board = { chairs: useChairs(), people: usePeople(), gigs: useGigs() };
  return { board, file, timeZone, today, now: store.now(), member, here };
};

/** Slips of a song one leaves without logging its take wait for somebody else's. */
const useLeaving = (song: string, draft: TakeDraft, forget: () => void): void => {
  const wait = useWait();
  const latest = useRef({ draft, forget, wait });
  latest.current = { draft, forget, wait };
  useEffect(
    () => () => {
      const { draft: left, ...then } = latest.current;
      if (left.slips.length === 0 || left.kind !== "run") return;
      then.wait(song, left.slips);
      then.forget();
    },
    [song],
  );
};

/** A take of one song as it is put together on this phone, kept over a reload. */
export const useTake = (file: SongFile): OpenTake => {
  const act = useAct();
  const names = useNames();
  const store = useBoardStore();
  const { writer } = useAuthor();
  const [{ today }] = useViewpoint();
  const song = file.song.id;
  const [text, setText] = useDraft(`take.${useBoardId()}`);
  const draft = keptTakeDraft(text, today, song);
  const [here, setHere] = useHere(draft.day ?? today);
  const [logged, setLogged] = useState(0);
  const scene = useScene(file, here);
  useNowAndThen();
  const change = useCallback(
    (fields: Partial<TakeDraft>) => setText(keepTakeDraft(today, song, { ...draft, ...fields })),
    [setText, today, song, draft],
  );
  const trial = takeArgs(draft, "clean", scene);
  const twin = trial.ok ? joinedTake(file, trial.value, writer) : null;
  const joins = twin === null ? null : joinSentence(twin, names);
  useLeaving(song, draft, () => setText(keepTakeDraft(today, song, { ...draft, slips: [] })));
  const log = (feel: Feel) => {
    const args = takeArgs(draft, feel, { ...scene, now: store.now() });
    if (!args.ok) return;
    const label = `${file.song.title}: ${feel}.${joins === null ? "" : ` ${joins}`}`;
    if (!act(logTake, { ...args.value }, label)) return;
    setText(keepTakeDraft(today, song, nextTake(draft)));
    setLogged((n) => n + 1);
  };
  return {
    draft,
    change,
    here,
    setHere,
    scene,
    words: takeWords(draft, scene, names),
    fault: trial.ok ? null : trial.error,
    joins,
    logged,
    log,
  };
};
