/** Type, colours and the frame. Colours after Okabe and Ito (2008), which colour-blind readers tell apart. */
export const BASE = `
:root {
  color-scheme: light dark;
  --ink: #1d2327; --soft: #59646b; --paper: #fbfaf7; --line: #d9d6cd; --tint: #f0ede5; --edge: #767d81;
  --total: #0072b2; --natural: #a6611a; --ground: #007a5a; --warn: #8a4b00; --bad: #9c2f00; --press: #1d4f73;
}
@media (prefers-color-scheme: dark) {
  :root {
    --ink: #e6e3dc; --soft: #a4aaab; --paper: #16191b; --line: #363c40; --tint: #1f2427; --edge: #848b8e;
    --total: #56b4e9; --natural: #e69f00; --ground: #2fc79a; --warn: #f0b86a; --bad: #ff9d73; --press: #9fd0f0;
  }
}
* { box-sizing: border-box; } [hidden] { display: none !important; }
html { overflow-wrap: anywhere; }
body { margin: 0 auto; max-width: 72rem; padding: 0 1.25rem 3rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.55 Georgia, "Iowan Old Style", "Times New Roman", serif; }
a { color: inherit; text-decoration-color: var(--edge); text-underline-offset: .15em; }
:focus-visible { outline: 2px solid var(--total); outline-offset: 2px; }
.skip { position: absolute; left: -99rem; } .skip:focus { left: 1rem; top: .25rem; background: var(--paper); padding: .5rem; }
.top { display: flex; flex-wrap: wrap; gap: .25rem 2rem; align-items: baseline; padding: 1.1rem 0 .9rem; border-bottom: 1px solid var(--line); }
.home { font-size: 1.35rem; text-decoration: none; letter-spacing: .01em; padding: .15rem 0; }
.menu > summary { display: none; }
@supports selector(::details-content) {
  @media (min-width: 48.01rem) { .menu::details-content { content-visibility: visible; block-size: auto; } }
}
@supports not selector(::details-content) { .menu > summary { display: block; } }
@media (max-width: 48rem) {
  .top { justify-content: space-between; align-items: center; gap: 0 1rem; padding: .35rem 0; }
  .menu { display: contents; } .menu > summary { display: block; padding: .5rem 0; min-height: 40px; color: inherit; list-style: none; }
  .menu > summary::after { content: " +"; } .menu[open] > summary::after { content: " −"; }
  .menu::details-content { flex-basis: 100%; } .menu nav a { padding: .5rem 0; }
}
nav { display: flex; flex-wrap: wrap; gap: 0 1.25rem; }
nav a { display: inline-block; padding: .3rem 0; min-height: 24px; }
nav a[aria-current] { text-decoration-thickness: 2px; text-decoration-color: var(--ink); }
h1 { font-size: 1.7rem; font-weight: normal; line-height: 1.25; margin: 1.75rem 0 .5rem; }
h2 { font-size: 1.25rem; font-weight: normal; margin: 2.25rem 0 .5rem; }
h3 { font-size: 1.05rem; font-weight: normal; font-style: italic; margin: 1.5rem 0 .4rem; }
p, ul, ol { max-width: 44rem; margin: .5rem 0; }
li { margin: .25rem 0; }
main a:not(p a, li a, td a, dd a) { min-height: 24px; }
footer { margin-top: 3rem; border-top: 1px solid var(--line); color: var(--soft); font-size: .9rem; }
.invented { background: var(--tint); border-left: 3px solid var(--natural); padding: .5rem .9rem; }
.caution { border-left: 3px solid var(--bad); padding: .1rem .9rem; }
.quiet, .missing { color: var(--soft); }
.figure { font-size: 1.6rem; margin: .75rem 0 0; }
.line { display: block; } td .paid, th .paid { font-size: .9rem; }
.struck { text-decoration: line-through; }
.q { white-space: nowrap; font-variant-numeric: tabular-nums lining-nums; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
summary { cursor: pointer; min-height: 24px; padding: .15rem 0; color: var(--soft); }
pre { overflow-x: auto; background: var(--tint); padding: .75rem .9rem; font-size: .85rem; line-height: 1.45; max-width: 60rem; }
code { font-size: .92em; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2rem 1.25rem; margin: .75rem 0; max-width: 52rem; }
dt { color: var(--soft); } dd { margin: 0; } dd + dd { grid-column: 2; }
@media (max-width: 34rem) {
  body { padding: 0 .9rem 2.5rem; }
  dl { grid-template-columns: 1fr; gap: 0; } dd { margin-bottom: .5rem; } dd + dd { grid-column: 1; }
  .q { white-space: normal; }
}
@media print {
  :root { --paper: #fff; --ink: #000; --soft: #333; --line: #bbb; --tint: #fff; --edge: #767d81;
    --total: #0072b2; --natural: #a6611a; --ground: #007a5a; --warn: #8a4b00; --bad: #9c2f00; --press: #1d4f73; }
  nav, footer a, .skip, summary, .unprinted { display: none; }
  body { padding: 0; max-width: none; font-size: 10pt; }
}
`;
