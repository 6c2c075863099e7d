import { useLocation } from "wouter";
import { WelcomeScreen } from "#client/features/welcome/welcome-screen.tsx";

/** Where Tightrow opens. */
export const WelcomeRoute = () => {
  const [, go] = useLocation();
  return <WelcomeScreen onOpen={(board, first) => go(`/b/${encodeURIComponent(board)}/${first}`)} />;
};
