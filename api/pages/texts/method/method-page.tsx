import { Page } from "../../page.tsx";
import type { Reader } from "../../reader.ts";
import { Contents } from "../part.tsx";
import { SafetyLine } from "../safety-short.tsx";
import { DecayPart } from "./decay-part.tsx";
import { DoubtsPart } from "./doubts-part.tsx";
import { ExamplePart } from "./example-part.tsx";
import { FindingsPart, RefusalsPart } from "./findings-part.tsx";
import { LimitsPart } from "./limits-part.tsx";
import { MeaningPart } from "./meaning-part.tsx";
import { NoisePart } from "./noise-part.tsx";
import { PoolingPart, type SpreadToday } from "./pooling-part.tsx";
import { RanksPart } from "./ranks-part.tsx";
import { RatePart } from "./rate-part.tsx";
import { RoomPart } from "./room-part.tsx";
import { SourcesPart } from "./sources-part.tsx";
import { UncertaintyPart } from "./uncertainty-part.tsx";

const PARTS = [
  ["decay", "From readings to a rate"],
  ["cadr", "From two rates to clean air"],
  ["uncertainty", "Where the interval comes from"],
  ["example", "An example to follow on paper"],
  ["meaning", "What an interval means, and what it does not"],
  ["limits", "What it cannot see"],
  ["findings", "Findings"],
  ["refusals", "Refusals"],
  ["doubts", "Tests that wait for a person"],
  ["pooling", "Many tests of one cleaner"],
  ["ranks", "Ranks, ties and comparisons"],
  ["noise", "Noise at 1 m"],
  ["room", "Your own room"],
  ["plan", "Planning a test"],
  ["sources", "Sources"],
  ["version", "Versions"],
] as const;

/** What is computed, and why so. */
export function MethodPage({ reader, spread }: { readonly reader: Reader; readonly spread: SpreadToday }) {
  return (
    <Page reader={reader} title="Method · Motefall">
      <article class="text">
        <h1>Method</h1>
        <p>
          Fill a closed room with particles, let them decay with the cleaner off, again with it on, and log a counter
          all the while. The difference of the two rates times the volume is the clean air the cleaner delivers, its
          clean air delivery rate (CADR). Everything that is uncertain about that is added up, and the result is shown
          as an interval. This page says how, for those who want to check it.
        </p>
        <SafetyLine />
        <Contents of={PARTS} />
        <DecayPart />
        <RatePart />
        <UncertaintyPart />
        <ExamplePart reader={reader} />
        <MeaningPart />
        <LimitsPart />
        <FindingsPart />
        <RefusalsPart />
        <DoubtsPart />
        <PoolingPart spread={spread} />
        <RanksPart />
        <NoisePart />
        <RoomPart />
        <SourcesPart />
      </article>
    </Page>
  );
}
