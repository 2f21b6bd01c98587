import { AEROSOL_WORDS } from "../pages/aerosol-words.ts";
import { BASIS_WORDS } from "../pages/basis-words.ts";
import { testWords } from "../pages/counts.ts";
import { bandPhrase, between, unitWords } from "../pages/figures.ts";
import { figureText } from "../pages/quantity.tsx";
import { seriousWords } from "../pages/serious.tsx";
import { NATURAL_WORDS } from "../pages/trial/record-words.ts";
import { paidWords } from "../pages/who-paid.tsx";
import { correctedInterest, correctedWords } from "../pins/corrected-words.ts";
import type { PinnedEntry, PinnedResult, PinnedTrial } from "../wire/pinned.ts";
import { volumeOut } from "../wire/volume-out.ts";
import { oneLine, type Reference } from "./reference.ts";

/**
 * How a pinned result is cited: what it is a CADR of, the value ± U in both units, what the interval is about, how many
 * tests and who paid, revision, method version and address.
 * @param handle of the submitter of a trial, null where there is none or it was erased
 */
export function referenceOf(result: PinnedResult, handle: string | null): Reference {
  const { pinned, sha256, page } = result;
  const { configuration, setting, cadr, cadr_cfm, invented, band, method_version } = pinned;
  const named = [configuration.title, setting].filter(Boolean).join(", ");
  const flow = `${figureText(cadr)} ${unitWords(cadr.unit)} (${figureText(cadr_cfm)} ${unitWords(cadr_cfm.unit)})`;
  const title = `Clean air delivery rate (CADR) of ${named}, for ${bandPhrase(band)}: ${flow}`;
  return {
    key: `motefall${pinned.path.replace("/pinned", "").replaceAll(/[^\w.-]+/g, "-")}`,
    author: authorOf(pinned, handle),
    title: oneLine(
      `${withdrawnWords(result)}${correctedNote(result)}${invented ? "[Invented for demonstration] " : ""}${title}`,
    ),
    date: pinned.stored_at.slice(0, 10),
    details: [...(pinned.kind === "trial" ? ofTrial(pinned) : ofEntry(pinned)), ...correctedWords(result)].map(oneLine),
    version:
      pinned.kind === "trial"
        ? `revision ${pinned.revision}, method ${method_version}`
        : `as of event ${pinned.seq} of the log, method ${method_version}`,
    url: page,
    hash: sha256.slice(0, 12),
  };
}

function withdrawnWords({ withdrawn }: PinnedResult): string {
  return withdrawn ? `[Withdrawn ${withdrawn.at.slice(0, 10)}] ` : "";
}

/** What was said of who paid is part of the claim: a quotation carries what it was corrected to. */
function correctedNote(result: PinnedResult): string {
  const paid = correctedInterest(result);
  return paid ? `[Corrected: ${paidWords(paid)}] ` : "";
}

function authorOf(pinned: PinnedResult["pinned"], handle: string | null): string {
  if (pinned.kind === "entry") return "Motefall contributors";
  return oneLine(handle ?? "") || `Motefall submitter ${pinned.submitter}`;
}

function ofTrial({ room, counters, aerosol, interest, natural, findings, cadr }: PinnedTrial): string[] {
  const serious = findings.filter(({ severity }) => severity === "serious").map(({ code }) => code);
  return [
    `One test; the 95 % interval is about this room of ${figureText(volumeOut(room.volume))} m³ and ${counters === 1 ? "this counter" : "these counters"} alone`,
    `aerosol: ${aerosolWords(aerosol)}`,
    `natural loss: ${NATURAL_WORDS[natural.source]}`,
    paidWords({ [interest]: 1 }),
    ...(serious.length > 0 ? [`serious findings: ${serious.join(", ")}`] : []),
    ...(cadr.value <= 0 ? ["no effect was found"] : []),
  ];
}

function ofEntry(pinned: PinnedEntry): string[] {
  const { basis, trials, aerosols, prediction, interest } = pinned;
  const kinds = Object.entries(aerosols);
  return [
    ...(basis === "all" ? [] : [BASIS_WORDS[basis]]),
    `${testWords(pinned)}; the 95 % interval is about the mean between laboratories`,
    ...(prediction ? [`expected in another room: ${between(prediction)} ${unitWords(prediction.unit)}`] : []),
    `aerosol: ${kinds.length === 1 ? aerosolWords(kinds[0]![0]) : kinds.map(([kind, n]) => `${n} × ${aerosolWords(kind)}`).join(", ")}`,
    paidWords(interest),
    ...(pinned.serious > 0 ? [seriousWords({ trials, serious: pinned.serious })] : []),
  ];
}

function aerosolWords(kind: string): string {
  return (AEROSOL_WORDS as Readonly<Record<string, string>>)[kind] ?? kind;
}
