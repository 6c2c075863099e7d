/** Every command by its stable name, so that an outbox can replay what it kept. */
import { addChair, giveChair, moveChair, reviseChair } from "./add-chair.ts";
import { addDetail } from "./add-detail.ts";
import { addLineUp } from "./add-line-up.ts";
import { addPerson, revisePerson } from "./add-person.ts";
import { addSection } from "./add-section.ts";
import { addSong } from "./add-song.ts";
import { addSongs } from "./add-songs.ts";
import { adjustSettings } from "./adjust-settings.ts";
import { arrangeGig, pinInGig, requestForGig } from "./arrange-gig.ts";
import { answerQuestion, askQuestion, settleQuestion, withdrawQuestion } from "./ask-question.ts";
import { askForKey, callSongs, dropSong, moveInGig, tuneForGig } from "./call-song.ts";
import { castPart, declareNothingSpecial } from "./cast-part.ts";
import type { Command } from "./command.ts";
import { describeGrid, describeShape } from "./describe-grid.ts";
import { describeSide } from "./describe-side.ts";
import { insertBars, removeBars } from "./edit-bars.ts";
import { flagSlip, withdrawTake } from "./flag-slip.ts";
import { importSong } from "./import-song.ts";
import { joinSections } from "./join-sections.ts";
import { logTake } from "./log-take.ts";
import { markDetail } from "./mark-detail.ts";
import { moveSong } from "./move-song.ts";
import { dismissHint, paintTexture } from "./paint-texture.ts";
import { planGig, reviseGig } from "./plan-gig.ts";
import {
  choosePlan, endRehearsal, pinSong, planRehearsal, startRehearsal,
} from "./plan-rehearsal.ts"; // biome-ignore format: by theme
import * as removal from "./remove-record.ts";
import { putBack, restoreBoard } from "./restore-board.ts";
import { moveDetail, placeDetail, reviseDetail } from "./revise-detail.ts";
import { moveSection, removeSection, restoreSection, reviseSection } from "./revise-section.ts";
import { reviseSong } from "./revise-song.ts";
import { rewordDetail } from "./reword-detail.ts";
import { rule, withdrawRuling } from "./rule.ts";
import { sayAway, sayWhoIsHere, standIn, withdrawAway } from "./say-who-is-here.ts";
import { seatForGig, waiveGate } from "./seat-for-gig.ts";
import { splitSection } from "./split-section.ts";
import { startBand } from "./start-band.ts";
import { takeBack } from "./take-back.ts";
import { tellOfNight } from "./tell-of-night.ts";
import { writeForm } from "./write-form.ts";

// Commands take their arguments through their own schema, so a list may forget the argument types.
const ALL = [
  startBand, adjustSettings,
  addSong, addSongs, importSong, reviseSong, moveSong,
  writeForm, addSection, reviseSection, moveSection, removeSection, restoreSection,
  insertBars, removeBars, splitSection, joinSections,
  addChair, addLineUp, reviseChair, giveChair, moveChair, addPerson, revisePerson,
  castPart, declareNothingSpecial, paintTexture, dismissHint,
  addDetail, rewordDetail, describeGrid, describeShape, describeSide, reviseDetail, placeDetail, moveDetail, markDetail,
  logTake, flagSlip, withdrawTake, rule, withdrawRuling,
  askQuestion, answerQuestion, settleQuestion, withdrawQuestion,
  planGig, reviseGig, callSongs, dropSong, moveInGig, arrangeGig, pinInGig, requestForGig, tellOfNight, tuneForGig, askForKey, seatForGig, waiveGate,
  planRehearsal, startRehearsal, endRehearsal, choosePlan, pinSong,
  sayWhoIsHere, standIn, sayAway, withdrawAway,
  takeBack, putBack, restoreBoard, ...Object.values(removal),
] as readonly unknown[] as readonly Command<unknown>[]; // biome-ignore format: by theme

/** Command name → command. */
export const COMMANDS: ReadonlyMap<string, Command<unknown>> = new Map(
  ALL.map((command) => [command.name, command]),
);
