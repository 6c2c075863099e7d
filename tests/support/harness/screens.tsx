/** Every screen under the address the app gives it, composed as the app composes it. */
import { type ComponentType, lazy, type ReactNode } from "react";
import { useLocation } from "wouter";

type Params = Readonly<Record<string, string | undefined>>;
export interface HarnessScreen {
  readonly path: string;
  readonly show: (params: Params) => ReactNode;
}

/** A named export of a module, loaded when its address is opened. */
const named = <P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> =>
  lazy(async () => ({ default: await load() })) as unknown as ComponentType<P>;

const Songs = named(async () => (await import("#client/features/songs/songs-screen.tsx")).SongsScreen);
const AddSongs = named(async () => (await import("#client/features/songs/paste-songs.tsx")).PasteSongs);
const People = named(async () => (await import("#client/features/people/people-screen.tsx")).PeopleScreen);
const Presets = named(async () => (await import("#client/features/people/pick-line-up.tsx")).PickLineUp);
const Links = named(async () => (await import("#client/features/people/share-links.tsx")).ShareLinks);
const Gigs = named(async () => (await import("#client/features/gigs/gigs-screen.tsx")).GigsScreen);
const Gig = named(async () => (await import("#client/features/gigs/gig-screen.tsx")).GigScreen);
const Settings = named(
  async () => (await import("#client/features/settings/settings-screen.tsx")).SettingsScreen,
);
const Start = named(async () => (await import("#client/features/welcome/start-screen.tsx")).StartScreen);
const Welcome = named(
  async () => (await import("#client/features/welcome/welcome-screen.tsx")).WelcomeScreen,
);
const Join = named(async () => (await import("#client/features/join/join-screen.tsx")).JoinScreen);
const PickName = named(async () => (await import("#client/features/join/pick-name.tsx")).PickName);

const StartHere = () => {
  const [, go] = useLocation();
  return (
    <StartLazy lineUp={<Presets />} songs={<AddSongs />} links={<Links />} onDone={() => go("/board")} />
  );
};
const StartLazy = Start;

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
  { path: "/songs", show: () => <Songs /> },
  { path: "/people", show: () => <People /> },
  { path: "/gigs", show: () => <Gigs /> },
  { path: "/gigs/:gig", show: ({ gig = "" }) => <Gig gig={gig} /> },
  { path: "/settings", show: () => <Settings /> },
  { path: "/start", show: () => <StartHere /> },
  { path: "/who", show: () => <WhoHere /> },
];

export const OPEN_SCREENS: readonly HarnessScreen[] = [
  { path: "/", show: () => <WelcomeHere /> },
  { path: "/join/:board/:secret", show: ({ secret = "" }) => <JoinHere secret={secret} /> },
];
