/**
 * What MusicXML asks of the elements that grids are written with. Source: W3C MusicXML 4.0 Final Report (June 2021), the
 * content of each element's page in the reference ("in this order"), left out what is never written here.
 */
import { SaxesParser } from "saxes";

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: XmlElement[];
  text: string;
}

/** Reads a document; throws where it is not well-formed XML 1.0 (saxes is the judge). */
export const readXml = (text: string): XmlElement => {
  const top: XmlElement = { name: "", attributes: {}, children: [], text: "" };
  const open = [top];
  const parser = new SaxesParser();
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", ({ name, attributes }) => {
    const element: XmlElement = { name, attributes, children: [], text: "" };
    open.at(-1)?.children.push(element);
    open.push(element);
  });
  parser.on("text", (said) => {
    const element = open.at(-1);
    if (element !== undefined) element.text += said;
  });
  parser.on("closetag", () => open.pop());
  parser.write(text).close();
  const [root] = top.children;
  if (root === undefined) throw new Error("there is no element");
  return root;
};

export const all = (element: XmlElement, name: string): readonly XmlElement[] =>
  element.children.filter((child) => child.name === name);
export const child = (element: XmlElement, name: string): XmlElement | undefined => all(element, name)[0];
export const number = (element: XmlElement, name: string): number => Number(child(element, name)?.text);

/** Names of the children, each with a space behind. */
const CONTENT: Readonly<Record<string, RegExp>> = {
  "score-partwise": /^(work )?(identification )?part-list (part )+$/,
  work: /^(work-title )?$/,
  identification: /^(encoding )*$/,
  encoding: /^(software |encoding-date )*$/,
  "part-list": /^(score-part )+$/,
  "score-part": /^part-name (score-instrument )*(midi-instrument )*$/,
  "score-instrument": /^instrument-name $/,
  "midi-instrument": /^(midi-channel )?(midi-program )?(midi-unpitched )?$/,
  part: /^(measure )+$/,
  measure: /^(note |direction |attributes |barline )*$/,
  attributes: /^(divisions )?(key )*(time )*(clef )*$/,
  key: /^fifths (mode )?$/,
  time: /^beats beat-type $/,
  clef: /^sign (line )?(clef-octave-change )?$/,
  direction: /^(direction-type )+(sound )?$/,
  "direction-type": /^((rehearsal )+|(words )+|metronome )$/,
  metronome: /^beat-unit (beat-unit-dot )*per-minute $/,
  note: /^(chord )?(pitch |unpitched |rest )duration (tie ){0,2}(instrument )*(voice )?(type )?(dot )*(time-modification )?(notehead )?(notations )*$/,
  pitch: /^step (alter )?octave $/,
  unpitched: /^(display-step display-octave )?$/,
  "time-modification": /^actual-notes normal-notes (normal-type )?$/,
  notations: /^(tied |tuplet |articulations )*$/,
  articulations: /^(accent )*$/,
  barline: /^(bar-style )?$/,
};

/** Contents and attributes that are one of a few words or numbers (data types of the reference). */
const VALUES: Readonly<Record<string, RegExp>> = {
  fifths: /^-?\d+$/,
  mode: /^(major|minor)$/,
  beats: /^\d+(\+\d+)*$/,
  "beat-type": /^\d+$/,
  divisions: /^[1-9]\d*$/,
  duration: /^[1-9]\d*$/,
  step: /^[A-G]$/,
  "display-step": /^[A-G]$/,
  octave: /^[0-9]$/,
  "display-octave": /^[0-9]$/,
  alter: /^-?1$/,
  sign: /^(G|F|percussion)$/,
  type: /^(1024th|512th|256th|128th|64th|32nd|16th|eighth|quarter|half|whole)$/,
  "normal-type": /^(256th|128th|64th|32nd|16th|eighth|quarter|half|whole)$/,
  "beat-unit": /^(1024th|512th|256th|128th|64th|32nd|16th|eighth|quarter|half|whole)$/,
  notehead: /^(normal|x|diamond)$/,
  "bar-style": /^(light-light|light-heavy)$/,
  "midi-channel": /^([1-9]|1[0-6])$/,
  "midi-unpitched": /^([1-9]\d?|1[01]\d|12[0-8])$/,
  "midi-program": /^([1-9]\d?|1[01]\d|12[0-8])$/,
};

/** What is wrong with the structure of a score, in words; empty = nothing. */
export const faultsIn = (element: XmlElement): readonly string[] => {
  const names = element.children.map(({ name }) => `${name} `).join("");
  const content = CONTENT[element.name];
  const own = (content ?? /^$/).test(names) ? [] : [`${element.name} holds ${names}`];
  const value = VALUES[element.name];
  const said =
    value === undefined || value.test(element.text) ? [] : [`${element.name} says ${element.text}`];
  return [...own, ...said, ...element.children.flatMap(faultsIn)];
};
