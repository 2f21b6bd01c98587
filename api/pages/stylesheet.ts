/** The one stylesheet: quiet, readable, light and dark, nothing fetched from elsewhere. Colours after Okabe and Ito (2008). */
export const STYLESHEET = `
:root {
  color-scheme: light dark;
  --ink: #1d2327; --soft: #59646b; --paper: #fbfaf7; --line: #d9d6cd; --tint: #f0ede5;
  --total: #0072b2; --natural: #a6611a; --ground: #009e73; --warn: #8a4b00;
}
@media (prefers-color-scheme: dark) {
  :root {
    --ink: #e6e3dc; --soft: #a4aaab; --paper: #16191b; --line: #363c40; --tint: #1f2427;
    --total: #56b4e9; --natural: #e69f00; --ground: #2fc79a; --warn: #f0b86a;
  }
}
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 72rem; padding: 0 1.25rem 3rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.55 Georgia, "Iowan Old Style", "Times New Roman", serif; }
a { color: inherit; text-decoration-color: var(--soft); text-underline-offset: .15em; }
a:focus-visible { outline: 2px solid var(--total); outline-offset: 2px; }
.top { display: flex; flex-wrap: wrap; gap: .5rem 2rem; align-items: baseline; padding: 1.25rem 0; border-bottom: 1px solid var(--line); }
.home { font-size: 1.35rem; text-decoration: none; letter-spacing: .01em; }
nav { display: flex; flex-wrap: wrap; gap: .25rem 1.25rem; }
nav a { display: inline-block; padding: .25rem 0; }
h1 { font-size: 1.7rem; font-weight: normal; line-height: 1.25; margin: 1.75rem 0 .5rem; }
h2 { font-size: 1.2rem; font-weight: normal; margin: 2.25rem 0 .5rem; }
p { max-width: 44rem; margin: .5rem 0; }
footer { margin-top: 3rem; border-top: 1px solid var(--line); color: var(--soft); font-size: .9rem; }
.invented { background: var(--tint); border-left: 3px solid var(--natural); padding: .5rem .9rem; }
.quiet { color: var(--soft); }
.scroll { overflow-x: auto; } .scroll table { min-width: 50rem; } .scroll svg { max-width: none; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums lining-nums; }
th, td { text-align: left; vertical-align: baseline; padding: .45rem .9rem .45rem 0; border-bottom: 1px solid var(--line); }
th { font-weight: normal; color: var(--soft); font-size: .9rem; }
th.number, td.number { text-align: right; white-space: nowrap; }
td small, dd small { color: var(--soft); }
.figure { font-size: 1.6rem; margin: .75rem 0 0; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2rem 1.25rem; margin: .75rem 0; max-width: 52rem; }
dt { color: var(--soft); } dd { margin: 0; }
@media (max-width: 34rem) { dl { grid-template-columns: 1fr; gap: 0; } dd { margin-bottom: .5rem; } }
svg { display: block; max-width: 100%; height: auto; }
svg text { fill: var(--soft); font: 13px Georgia, serif; }
.axis { stroke: var(--line); } .interval { stroke: var(--total); stroke-width: 6; } .centre { stroke: var(--ink); stroke-width: 1.5; }
caption { text-align: left; padding: .75rem 0 .25rem; }
.reading { fill: var(--soft); fill-opacity: .55; }
.fit-total { stroke: var(--total); } .fit-natural { stroke: var(--natural); } .fit { stroke-width: 2.5; fill: none; }
.span-total { fill: var(--total); fill-opacity: .1; } .span-natural { fill: var(--natural); fill-opacity: .12; }
.span-background { fill: var(--ground); fill-opacity: .16; }
.findings li { margin: .35rem 0; max-width: 44rem; } .findings .serious, .findings .warning { color: var(--warn); }
.struck { text-decoration: line-through; }
@media print { :root { --paper: #fff; --ink: #000; --soft: #333; } nav { display: none; } }
`;
