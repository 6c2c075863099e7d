import { WhileOutLine } from "#client/features/catch-up/while-out-line.tsx";
import { useCatchUpHere } from "./catch-up-here.ts";

export const WhileOutHere = () => <WhileOutLine catchUp={useCatchUpHere()} />;
