/** Decays, their residuals, budgets, and a trial on one sheet of paper. */
export const TRIAL = `
.zero-total { stroke: var(--total); } .zero-natural { stroke: var(--natural); }
.zero { stroke-width: 1.5; fill: none; }
.decays figure details table { font-size: .9rem; } .decays figure details td, .decays figure details th { padding: .3rem .5rem .3rem 0; }
.printed { display: none; }
.part { fill: var(--press); } .part-less { fill: none; stroke: var(--press); stroke-dasharray: 3 2; }
.trial-bands { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 15.5rem), 1fr)); gap: .75rem 1.75rem; margin: 1rem 0; }
.trial-bands .place { margin: .15rem 0; font-size: .9rem; } .place a { display: inline-block; min-height: 24px; line-height: 24px; } .budget tfoot th { color: inherit; font-size: inherit; }
.trial-bands section { border-top: 1px solid var(--line); }
.trial-bands h2 { font-size: 1rem; margin: .6rem 0 0; } .trial-bands .figure, .trial-bands .paid { margin: 0; }
.trial-bands dl { gap: .1rem 1rem; margin: .5rem 0; } .trial-bands .q { white-space: normal; }
.trial-choices { gap: .1rem 1.4rem; margin: .25rem 0 .75rem; }
.trial-choices a[aria-current] { text-decoration-thickness: 2px; text-decoration-color: var(--ink); }
.decays figure { margin: .25rem 0; }
.decays .of-background .wide { display: none; } .decays .of-background .narrow { display: block; }
.budget { width: auto; } .budget svg, .budget td.bar { width: 200px; } .budget svg { height: 16px; }
.rates { max-width: 52rem; } .rates .fit-row small { font-size: .9rem; } .rates tr:has(+ .fit-row) > * { border: 0; padding-bottom: 0; }
.trial-findings > ul { padding-left: 1.1rem; } .trial-findings > ul > li { margin: .6rem 0; }
.finding-values { color: var(--soft); padding-left: 1.1rem; margin: .1rem 0; } .finding-values li { margin: 0; }
.finding-values bdi { white-space: nowrap; } .trial-findings b { font-weight: normal; font-style: italic; } .serious b { color: var(--bad); } .warning b { color: var(--warn); }
.stated { white-space: nowrap; } .conditions .words, .questions .words { white-space: pre-line; } .conditions .counter, .conditions .correction { margin: 0; }
.questions > ol { padding-left: 1.4rem; } .questions > ol > li { margin: 1rem 0; } .questions p { margin: .15rem 0; }
.questions .answer { border-left: 2px solid var(--line); margin: .5rem 0; padding-left: .75rem; }
@media (max-width: 34rem) { .trial-bands dl { grid-template-columns: max-content 1fr; gap: .1rem 1rem; } .trial-bands dd { margin: 0; }
  .budget svg, .budget td.bar { width: 64px; } .budget td, .budget th { padding-right: .5rem; } .rates td, .rates th { padding-right: .5rem; } }
@page { margin: 7mm 9mm; }
@media print {
  body:has(.trial) { font-size: 8.5pt; line-height: 1.09; } .trial small { font-size: inherit; }
  body:has(.trial) .top { display: none; } body:has(.trial) footer { margin-top: .3rem; font-size: inherit; }
  body:has(.trial) footer p:not(.unprinted) { display: inline; } .trial sub { font-size: inherit; line-height: 0; } .trial .rates caption { display: none; }
  .trial h1 { font-size: 13pt; margin: 0; } .trial h2 { font-size: 10pt; margin: .15rem 0 0; } .trial h3 { font-size: 9pt; margin: .2rem 0 0; }
  .trial h2, .trial caption { break-after: avoid; } .trial .budget, .trial-findings > ul > li, .trial tr, .trial svg { break-inside: avoid; }
  .trial p, .trial ul { margin: .05rem 0; max-width: none; } .trial ul { padding-left: 1rem; } .trial li, .trial .trial-findings > ul > li { margin: .1rem 0; max-width: none; }
  .trial .finding-values { padding: 0; } .trial .finding-values, .trial .finding-values li { display: inline; } .trial .finding-values::before { content: " "; } .trial .finding-values li + li::before { content: "; "; } .trial-findings .next::before { content: ". "; }
  .trial .trial-bands .figure { font-size: 12pt; margin: 0; } .trial .invented, .trial .caution { padding: .1rem .5rem; }
  .trial .trial-bands { grid-template-columns: repeat(auto-fit, minmax(40mm, 1fr)); gap: 0 .75rem; margin: .2rem 0; } .trial .trial-bands h2 { font-size: inherit; margin: .1rem 0 0; }
  .trial .trial-bands dt:nth-of-type(3), .trial .trial-bands dd:nth-of-type(3) { display: none; }
  .trial dl, .trial .trial-bands dl { grid-template-columns: max-content 1fr; gap: 0 .6rem; margin: .1rem 0; } .trial dd { margin: 0; }
  .trial .printed { display: block; } .trial .decays figcaption { display: none; }
  .trial .decays { display: grid; grid-template-columns: 1fr 1fr; gap: .2rem 1rem; } .trial figure { margin: .1rem 0; }
  .trial .decays .wide { display: none; } .trial .decays .narrow { display: block; width: 74mm; } .trial .decays .narrow text { font-size: 13.5px; }
  .trial .decays section:not(:only-child) figure + figure, .trial .decays .of-background:not(:only-child) { display: none; }
  .trial .decays section:only-child { grid-column: 1 / -1; display: grid; grid-template-columns: 1fr 1fr; column-gap: 1rem; } .trial .decays section:only-child > :not(figure) { grid-column: 1 / -1; }
  .trial .trial-bands section:only-child dl { grid-template-columns: max-content 1fr max-content 1fr; }
  .trial .trial-findings > ul:has(> li + li), .trial .sheet { columns: 2; column-gap: 1.25rem; } .trial .history .events { display: none; }
  .trial td, .trial th, .trial .rates .fit-row small { padding: .05rem .4rem .05rem 0; font-size: inherit; line-height: inherit; } .trial caption { padding: .1rem 0; }
  .trial .budget .bar { display: none; } .trial .budget { width: 100%; } .trial .scroll { overflow: visible; }
}
`;
