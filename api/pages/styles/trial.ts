/** Decays, their residuals, budgets, and a trial on one sheet of paper. */
export const TRIAL = `
.mark { stroke: var(--ink); stroke-width: 1; fill: none; }
svg text.mark-name { paint-order: stroke; stroke: var(--paper); stroke-width: 3px; }
.level { stroke-width: 1.5; stroke-dasharray: 1.5 3.5; fill: none; }
.level-total, .zero-total { stroke: var(--total); } .level-natural, .zero-natural { stroke: var(--natural); }
.zero { stroke-width: 1.5; fill: none; }
.part { fill: var(--press); } .part-less { fill: none; stroke: var(--press); stroke-dasharray: 3 2; }
.bands { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 17rem), 1fr)); gap: .5rem 2.5rem; margin: 1rem 0; }
.bands section { border-top: 1px solid var(--line); }
.bands h2 { font-size: 1rem; margin: .6rem 0 0; } .bands .figure { margin: .1rem 0 0; } .bands .paid { margin: 0; }
.bands dl { gap: .1rem 1rem; margin: .5rem 0; }
.choices { gap: .1rem 1.4rem; margin: .25rem 0 .75rem; }
.choices a[aria-current] { text-decoration-thickness: 2px; text-decoration-color: var(--ink); }
.decays figure { margin: .25rem 0; }
.budget { width: auto; } .budget svg { width: 240px; } .budget td.bar { width: 240px; }
.rates td, .rates th { padding-right: 1.25rem; } .rates .fit-row td { color: var(--soft); font-size: .9rem; }
.findings > ul { padding-left: 1.1rem; } .findings li { max-width: 44rem; } .findings > ul > li { margin: .6rem 0; }
.findings .values { color: var(--soft); padding-left: 1.1rem; margin: .1rem 0; } .findings .values li { margin: 0; }
.findings b { font-weight: normal; font-style: italic; } .serious b { color: var(--bad); } .warning b { color: var(--warn); }
.conditions .words { white-space: pre-line; }
.conditions .counter, .conditions .correction { margin: 0; }
.history li { overflow-wrap: anywhere; }
@media (max-width: 34rem) { .bands dl { grid-template-columns: max-content 1fr; gap: .1rem 1rem; } .bands dd { margin: 0; }
  .budget td.bar, .budget svg { width: 84px; } }
@page { margin: 9mm; }
@media print {
  body:has(.trial) { font-size: 7.5pt; line-height: 1.3; }
  body:has(.trial) .top { padding: 0; border: 0; } body:has(.trial) footer { margin-top: .3rem; font-size: 6.5pt; }
  body:has(.trial) footer p { margin: .1rem 0; max-width: none; } body:has(.trial) footer p:first-child { display: none; }
  .trial h1 { font-size: 13pt; margin: 0; } .trial h2 { font-size: 9pt; margin: .5rem 0 .1rem; } .trial h3 { font-size: 7.5pt; margin: .2rem 0 0; }
  .trial p, .trial ul { margin: .15rem 0; max-width: none; } .trial li, .trial .findings li { margin: .1rem 0; max-width: none; }
  .trial .figure { font-size: 12pt; margin: 0; } .trial .invented, .trial .caution { padding: .1rem .5rem; }
  .trial .bands { grid-template-columns: repeat(3, 1fr); gap: 0 1.5rem; margin: .2rem 0; }
  .trial dl, .trial .bands dl { grid-template-columns: max-content 1fr; gap: 0 .75rem; margin: .15rem 0; }
  .trial .decays { display: flex; gap: 1rem; } .trial .decays section { flex: 1 1 0; min-width: 0; max-width: 62%; }
  .trial .decays .wide { display: none; } .trial .decays .narrow { display: block; width: 100%; max-height: 46mm; }
  .trial figure { margin: .1rem 0; } .trial figcaption, .trial .decays p { font-size: 6.5pt; line-height: 1.2; }
  .trial .sheet { columns: 2; column-gap: 1.5rem; } .trial .sheet section { break-inside: auto; }
  .trial td, .trial th { padding: .1rem .5rem .1rem 0; } .trial caption { padding: .1rem 0; }
  .trial .budget svg, .trial .budget td.bar { width: 110px; } .trial .scroll { overflow: visible; }
}
`;
