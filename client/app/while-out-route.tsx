import { WhileOutScreen } from "#client/features/catch-up/while-out-screen.tsx";
import { useCatchUpHere } from "./catch-up-here.ts";

export const WhileOutRoute = () => <WhileOutScreen catchUp={useCatchUpHere()} />;
