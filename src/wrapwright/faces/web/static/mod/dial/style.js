/** How the dial looks; every colour is one of the product's tokens. */

export const STYLE = `
:host { display: block; min-width: 0; color: var(--ink); font-size: var(--f12); }
:host([hidden]), [hidden] { display: none !important; }
* { box-sizing: border-box; }
svg { display: block; margin: 0 auto; touch-action: pan-y pinch-zoom; user-select: none; -webkit-user-select: none; max-width: 100%; }
text { font: 500 11px var(--face, system-ui, sans-serif); fill: var(--ink-3); text-anchor: middle;
  dominant-baseline: central; font-variant-numeric: tabular-nums; }
.side { fill: var(--ink-2); font-weight: 600; }
.scale { fill: none; stroke: var(--ink-3); stroke-width: 1; }
.scale-ring { fill: none; stroke: var(--line); stroke-width: 1; }
.wall { fill: none; stroke: var(--ink-2); stroke-width: 1.5; }
.floor { fill: var(--sheet); stroke: none; }
.gap { fill: none; stroke: var(--ink-3); stroke-width: 1; stroke-dasharray: 2 3; }
.handle { fill: var(--panel); stroke: var(--ink-2); stroke-width: 1.5; stroke-linejoin: round; }
.window { fill: var(--accent-soft); stroke: none; opacity: .7; }
.window-edge { fill: none; stroke: var(--accent-line); stroke-width: 1; }
.seam { fill: none; stroke: var(--heat); stroke-width: 1.5; }
.lap { fill: none; stroke: var(--heat); stroke-width: 3; opacity: .55; }
.note { fill: var(--heat); paint-order: stroke; stroke: var(--panel); stroke-width: 3px; }
.note.plain { fill: var(--ink-2); }
.across { fill: none; stroke: var(--accent); stroke-width: 1; stroke-dasharray: 5 3; }
.across-end { fill: none; stroke: var(--accent); stroke-width: 2; }
.sight { fill: none; stroke: var(--ink-2); stroke-width: 1; }
.eye, .arc { touch-action: none; }
.eye { cursor: grab; }
.eye .lid { fill: var(--sheet); stroke: var(--ink); stroke-width: 1.5; }
.eye .pupil { fill: var(--ink); }
.hit { fill: transparent; stroke: transparent; pointer-events: all; }
.arc { cursor: grab; }
.arc .body { fill: var(--panel); stroke: var(--field-line); stroke-width: 1; }
.arc:hover .body { stroke: var(--accent); }
.arc .edge { stroke: var(--ink-3); stroke-width: 1; fill: none; }
.arc text { fill: var(--ink); pointer-events: none; }
.arc.chosen .body { fill: var(--accent); stroke: var(--accent); }
.arc.chosen .edge { stroke: var(--accent-ink); }
.arc.chosen text { fill: var(--accent-ink); font-weight: 600; }
.arc.opposite .body { stroke: var(--accent); stroke-width: 2; }
.all-round { cursor: pointer; }
.all-round .body { fill: none; stroke: var(--field-line); stroke-width: 1; }
.all-round:hover .body { stroke: var(--accent); stroke-width: 2; }
.all-round.chosen .body { stroke: var(--accent); stroke-width: 3.5; }
.moving, .moving * { cursor: grabbing; }
.snap { fill: none; stroke: var(--accent); stroke-width: 2; }
.figure { font-size: 17px; font-weight: 600; fill: var(--ink); }
.label { font-size: 11px; fill: var(--ink-2); }
.eye:focus, .arc:focus, .all-round:focus { outline: none; }
.focus { fill: none; stroke: none; pointer-events: none; }
:focus-visible > .focus { stroke: var(--accent); stroke-width: 2; }
.arc.chosen:focus-visible > .focus { stroke: var(--ink); }
dl { display: grid; grid-template-columns: minmax(4.5em, max-content) minmax(0, 1fr); grid-auto-rows: 1.6em; gap: 0 .75rem;
  margin: .5rem 0 0; }
dt { color: var(--ink-2); max-width: 7.5em; }
dd { margin: 0; font-variant-numeric: tabular-nums; }
dt, dd { overflow: hidden; text-overflow: ellipsis; white-space: nowrap; }
.empty { margin: 0; padding: 1rem; color: var(--ink-2); text-align: center; }
.spoken { position: absolute; width: 1px; height: 1px; margin: -1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media (forced-colors: active) {
  .arc.chosen .body { fill: Highlight; stroke: Highlight; }
  .arc.chosen text { fill: HighlightText; }
  :focus-visible > .focus { stroke: Highlight; }
}`;

export const PARTS = `
<svg role="group" aria-label="The blank seen from above, its front towards you" aria-describedby="keys">
  <g class="under" aria-hidden="true"></g><g class="rounds"></g><g class="arcs"></g>
  <g class="over" aria-hidden="true"></g><g class="eye" role="slider" tabindex="0" aria-label="Side that faces you"
  aria-valuemin="0" aria-valuemax="360"></g>
</svg>
<p class="spoken" id="keys">Arrow keys move what has the focus round the blank by 1 degree, with Shift by 15, with Alt by
  0.1. Enter selects it.</p>
<dl></dl>
<p class="empty" hidden>The dial shows the blank from above once its readings can be used.</p>`;
