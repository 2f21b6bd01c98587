import { METHOD_CHANGES } from "../../../../analysis/method-changes.ts";
import { METHOD_VERSION } from "../../../../analysis/method-version.ts";
import { Part } from "../part.tsx";

const SOURCES: readonly string[] = [
  "JCGM 100:2008, Guide to the Expression of Uncertainty in Measurement (GUM); JCGM 101:2008, its supplement on Monte Carlo; t factors also in NIST TN 1297",
  "ANSI/AHAM AC-1, method outline, 2006 edition sections 4–5 (band limits, sampling and least numbers of readings from memory)",
  "ISO 3744, sound power from sound pressure (K₁ from memory, figures computed); ISO 21501-4, light-scattering counters (from memory)",
  "CDC, MMWR 1994;43(RR-13) table S3-1; CDC/HICPAC guidelines 2003, table B.1; CDC ventilation target of 2023",
  "NIOSH 1998, occupational noise exposure, publication 98-126 (number from memory)",
  "NIST wildfire-smoke indoor-air study: published analysis code (fits ended at 5 % of the maximum) and constants",
  "Howard-Reed and others 2003, deposition indoors, abstract; Thatcher and others 2002, doi 10.1016/S1352-2310(02)00157-7",
  "Indoor Environments 3(2), 100165: room size and mixing",
  "Open decay logs by robwiss, 2022: two sensors on one run",
  "Welch and Satterthwaite by GUM G.4; Paule and Mandel 1982, J. Res. NBS 87:377; Cochran 1954; Birge 1932, Phys. Rev. 40:207",
  "DerSimonian and Laird 1986, Control. Clin. Trials 7:177; Knapp and Hartung 2003, Stat. Med. 22:2693; Higgins and Thompson 2002, Stat. Med. 21:1539",
  "Durbin, Hardin, Hawkins, Rocke 2002, Bioinformatics 18:S105 (asinh scale); Aitken 1936 (generalised least squares)",
  "Šidák 1967, JASA 62:626; Klein, Wright, Wieczorek 2020, J. R. Stat. Soc. C 69:589",
  "Wilson and Hilferty 1931 (χ² quantiles); Bailey 1994, Math. Comp. 62:779 (draws of t)",
];

/** Where figures and formulas come from, and what a version is. */
export function SourcesPart() {
  return (
    <>
      <Part id="sources" title="Sources">
        <p>
          “From memory” marks what was not looked up in the source; volumes and pages of the papers on statistics were
          not either. “Common practice, no source” is what people in the trade take for granted; “computed” what anybody
          can work out again.
        </p>
        <ul>
          {SOURCES.map((source) => (
            <li>{source}.</li>
          ))}
        </ul>
      </Part>
      <Part id="version" title="Versions">
        <p>
          This is method {METHOD_VERSION}, and each result names the one that made it. Logs as sent never change; at
          most they are erased, with a reason. A new version adds results beside the old ones; when every test has its
          own, readers see the new ones, and every cleaner’s figure is pooled again. A test’s page then shows both. All
          of it is open source: each formula stands with its units and its source in the docstring of the function that
          computes it, in the folder <code>analysis</code>.
        </p>
        <dl>
          {METHOD_CHANGES.toReversed().map(({ version, date, changed }) => (
            <>
              <dt>
                {version}, {date}
              </dt>
              {changed.map((each) => (
                <dd>{each}</dd>
              ))}
            </>
          ))}
        </dl>
      </Part>
    </>
  );
}
