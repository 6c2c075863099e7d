/** Every screen under the address the app gives it, composed as the app composes it. */
import { type ComponentType, lazy, type ReactNode, Suspense, useState } from "react";
import { useLocation } from "wouter";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { Sheet } from "#client/ui/sheet.tsx";

type Params = Readonly<Record<string, string | undefined>>;
export interface HarnessScreen {
  readonly path: string;
  readonly show: (params: Params) => ReactNode;
}

/** A named export of a module, loaded when its address is opened. */
const named = <P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> =>
  lazy(async () => ({ default: await load() })) as unknown as ComponentType<P>;

const Board = named(async () => (await import("#client/features/board/board-screen.tsx")).BoardScreen);
const Score = named(async () => (await import("#client/features/score/score-panel.tsx")).ScorePanel);
const Songs = named(async () => (await import("#client/features/songs/songs-screen.tsx")).SongsScreen);
const ImportSong = named(
  async () => (await import("#client/features/import-song/import-screen.tsx")).ImportScreen,
);
const AddSongs = named(async () => (await import("#client/features/songs/paste-songs.tsx")).PasteSongs);
const People = named(async () => (await import("#client/features/people/people-screen.tsx")).PeopleScreen);
const Presets = named(async () => (await import("#client/features/people/pick-line-up.tsx")).PickLineUp);
const Links = named(async () => (await import("#client/features/people/share-links.tsx")).ShareLinks);
const Gigs = named(async () => (await import("#client/features/gigs/gigs-screen.tsx")).GigsScreen);
const Gig = named(async () => (await import("#client/features/gigs/gig-screen.tsx")).GigScreen);
const RunningOrder = named(
  async () => (await import("#client/features/running-order/order-screen.tsx")).OrderScreen,
);
const Stand = named(async () => (await import("#client/features/stand/stand-screen.tsx")).StandScreen);
const LoadIn = named(async () => (await import("#client/features/stand/load-in-screen.tsx")).LoadInScreen);
const Debrief = named(
  async () => (await import("#client/features/debrief/debrief-screen.tsx")).DebriefScreen,
);
const Settings = named(
  async () => (await import("#client/features/settings/settings-screen.tsx")).SettingsScreen,
);
const History = named(
  async () => (await import("#client/features/history/history-screen.tsx")).HistoryScreen,
);
const Moment = named(async () => (await import("#client/features/history/moment-screen.tsx")).MomentScreen);
const Start = named(async () => (await import("#client/features/welcome/start-screen.tsx")).StartScreen);
const Welcome = named(
  async () => (await import("#client/features/welcome/welcome-screen.tsx")).WelcomeScreen,
);
const Join = named(async () => (await import("#client/features/join/join-screen.tsx")).JoinScreen);
const PickName = named(async () => (await import("#client/features/join/pick-name.tsx")).PickName);

const Part = named(async () => (await import("#client/features/part/part-panel.tsx")).PartPanel);
const Song = named(async () => (await import("#client/features/song/song-screen.tsx")).SongScreen);
const Listen = named(async () => (await import("#client/features/listen/listen-screen.tsx")).ListenScreen);

const MyParts = named(
  async () => (await import("#client/features/my-parts/my-parts-screen.tsx")).MyPartsScreen,
);
const Practice = named(
  async () => (await import("#client/features/practice/practice-screen.tsx")).PracticeScreen,
);
const Practise = named(
  async () => (await import("#client/features/practice/practise-detail.tsx")).PractiseDetail,
);
const Room = named(async () => (await import("#client/features/log-take/room-screen.tsx")).RoomScreen);

const Tonight = named(
  async () => (await import("#client/features/log-take/tonight-screen.tsx")).TonightScreen,
);

const PlanRoom = named(async () => (await import("#client/features/plan-room/plan-screen.tsx")).PlanScreen);

const StartHere = () => {
  const [, go] = useLocation();
  return (
    <StartLazy lineUp={<Presets />} songs={<AddSongs />} links={<Links />} onDone={() => go("/board")} />
  );
};
const StartLazy = Start;

/** The board; a part opens in an empty sheet beside it, a score in its own. */
const BoardHere = () => {
  const [part, setPart] = useState<{ readonly song: string; readonly chair: string } | null>(null);
  const [score, setScore] = useState<string | null>(null);
  return (
    <>
      <Board openPart={part} onOpenPart={(song, chair) => setPart({ song, chair })} onOpenScore={setScore} />
      <Sheet open={part !== null} onClose={() => setPart(null)} title="A part" subject={JSON.stringify(part)}>
        {part?.song} {part?.chair}
      </Sheet>
      <Sheet
        open={score !== null}
        onClose={() => setScore(null)}
        title="Behind the score"
        subject={score ?? ""}
      >
        {/* Loading must not hide the board behind the sheet, or the focus has nowhere to return to. */}
        <Suspense fallback={null}>{score === null ? null : <Score song={score} />}</Suspense>
      </Sheet>
    </>
  );
};

const ScoreHere = ({ song }: { readonly song: string }) => (
  <>
    <PageHeading title="Behind the score" />
    <Score song={song} />
  </>
);

const WhoHere = () => {
  const [, go] = useLocation();
  return <PickName onDone={() => go("/parts")} />;
};

const WelcomeHere = () => {
  const [, go] = useLocation();
  return <Welcome onOpen={(board, place) => go(`/b/${board}/${place}`)} />;
};

const JoinHere = ({ secret }: { readonly secret: string }) => {
  const [, go] = useLocation();
  return <Join board="demo" secret={secret} onJoined={(board, place) => go(`/b/${board}/${place}`)} />;
};

/** After `/b/:board`. */
export const BOARD_SCREENS: readonly HarnessScreen[] = [
  { path: "/board", show: () => <BoardHere /> },
  { path: "/songs/:song/score", show: ({ song = "" }) => <ScoreHere song={song} /> },
  { path: "/parts", show: () => <MyParts /> },
  { path: "/parts/practice", show: () => <Practice /> },
  {
    path: "/parts/practice/:song/:card",
    show: ({ song = "", card = "" }) => <Practise song={song} card={card} />,
  },
  { path: "/room/evening/tonight", show: () => <Tonight /> },
  { path: "/room/plan/:day?", show: ({ day }) => <PlanRoom day={day} /> },
  { path: "/room/:song?", show: ({ song }) => <Room song={song} /> },
  { path: "/songs", show: () => <Songs /> },
  { path: "/songs/import", show: () => <ImportSong /> },
  { path: "/songs/:song", show: ({ song = "" }) => <Song song={song} /> },
  { path: "/songs/:song/listen", show: ({ song = "" }) => <Listen song={song} /> },
  { path: "/songs/:song/take/:take", show: ({ song = "", take }) => <Song song={song} take={take} /> },
  {
    path: "/songs/:song/part/:chair/:card?",
    show: ({ song = "", chair = "", card }) => <Part song={song} chair={chair} card={card} page />,
  },
  { path: "/people", show: () => <People /> },
  { path: "/gigs", show: () => <Gigs /> },
  { path: "/gigs/:gig/debrief", show: ({ gig = "" }) => <Debrief gig={gig} /> },
  { path: "/gigs/:gig/order", show: ({ gig = "" }) => <RunningOrder gig={gig} /> },
  { path: "/gigs/:gig/stand", show: ({ gig = "" }) => <Stand gig={gig} /> },
  { path: "/gigs/:gig/load-in", show: ({ gig = "" }) => <LoadIn gig={gig} /> },
  { path: "/gigs/:gig", show: ({ gig = "" }) => <Gig gig={gig} /> },
  { path: "/settings", show: () => <Settings /> },
  {
    path: "/history/at/:document/:seq",
    show: ({ document = "", seq }) => <Moment document={document} seq={Number(seq)} />,
  },
  { path: "/history/:song?", show: ({ song }) => <History song={song} /> },
  { path: "/start", show: () => <StartHere /> },
  { path: "/who", show: () => <WhoHere /> },
];

export const OPEN_SCREENS: readonly HarnessScreen[] = [
  { path: "/", show: () => <WelcomeHere /> },
  { path: "/join/:board/:secret", show: ({ secret = "" }) => <JoinHere secret={secret} /> },
];
