/** How the turning view looks; every colour is one of the product's tokens. */

export const STYLE = `
:host { display: flex; flex-direction: column; min-width: 0; min-height: 0; color: var(--ink); font-size: var(--f12); }
:host([hidden]) { display: none; }
* { box-sizing: border-box; }
.stage { position: relative; flex: 1 1 auto; min-height: 220px; min-width: 0; overflow: hidden; touch-action: none;
  cursor: grab; user-select: none; -webkit-user-select: none; border-radius: var(--radius); }
.stage.turning { cursor: grabbing; }
.stage.over { cursor: pointer; }
.stage.over-own, .stage.moving { cursor: move; }
.stage:focus-visible { outline: 2px solid var(--accent); outline-offset: -2px; }
canvas, .table, .marks { position: absolute; inset: 0; width: 100%; height: 100%; display: block; }
.table, .marks { pointer-events: none; overflow: hidden; }
.table .ring { fill: none; stroke: var(--line); stroke-width: 1; }
.table .ticks { fill: none; stroke: var(--ink-3); stroke-width: 1; }
.table text { fill: var(--ink-3); font: 500 11px var(--face, system-ui, sans-serif); text-anchor: middle;
  dominant-baseline: middle; paint-order: stroke; stroke: var(--panel); stroke-width: 4px; stroke-linejoin: round; }
.table text.near { fill: var(--ink); font-weight: 600; }
.marks path { fill: none; stroke-linejoin: round; stroke-linecap: round; }
.marks .halo { stroke: var(--sheet); stroke-width: 3.5; opacity: .8; }
.marks .edge { stroke: var(--accent); stroke-width: 1.5; }
.marks .line { stroke: var(--accent); stroke-width: 1.5; }
.marks text { fill: var(--accent); font: 600 11px var(--face, system-ui, sans-serif); text-anchor: middle;
  paint-order: stroke; stroke: var(--panel); stroke-width: 4px; stroke-linejoin: round; }
.read { display: flex; align-items: baseline; gap: .5rem; padding: .25rem 0; min-height: 2rem; min-width: 0; }
.angle { font-size: var(--f17); font-weight: 600; font-variant-numeric: tabular-nums; min-width: 3.6em; }
.side { color: var(--ink-2); min-width: 0; overflow-wrap: anywhere; }
.sides { display: grid; grid-template-columns: repeat(4, minmax(0, 1fr)); gap: 0; padding: 0; margin: 0; border: 0; }
button { font: 500 var(--f12) / 1.2 var(--face, system-ui, sans-serif); color: var(--ink); background: var(--sheet);
  border: 1px solid var(--field-line); border-right-width: 0; min-height: 2rem; padding: 0 .25rem; cursor: pointer; }
button:first-child { border-radius: var(--radius) 0 0 var(--radius); }
button:last-child { border-right-width: 1px; border-radius: 0 var(--radius) var(--radius) 0; }
button[aria-pressed="true"] { background: var(--accent-soft); border-color: var(--accent-line); color: var(--ink);
  font-weight: 600; box-shadow: inset 0 -2px 0 var(--accent); }
button:focus-visible { outline: 2px solid var(--accent); outline-offset: 1px; position: relative; }
.flat { display: flex; flex-direction: column; gap: .5rem; padding: .5rem; }
.flat img { max-width: 100%; max-height: 100%; border: 1px solid var(--line); align-self: flex-start; }
.flat p, .empty { margin: 0; color: var(--ink-2); }
.empty { position: absolute; inset: 0; display: grid; place-items: center; padding: 1rem; text-align: center; }
[hidden] { display: none !important; }
.spoken { position: absolute; width: 1px; height: 1px; margin: -1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media (pointer: coarse) { button { min-height: 2.75rem; } }
@media (forced-colors: active) {
  button[aria-pressed="true"] { border: 2px solid Highlight; }
  .marks .edge, .marks .line { stroke: Highlight; }
  .marks .halo { stroke: Canvas; }
  .table .ring, .table .ticks { stroke: CanvasText; }
}`;

export const PARTS = `
<div class="stage" tabindex="0" role="img" aria-describedby="keys">
  <svg class="table" aria-hidden="true"><path class="ring"/><path class="ticks"/></svg>
  <canvas aria-hidden="true"></canvas>
  <svg class="marks" aria-hidden="true"></svg>
  <p class="empty" hidden></p>
  <div class="flat" hidden><p></p><img alt="The flat wrap as the server draws it" hidden></div>
</div>
<p class="spoken" id="keys">Left and right arrow keys turn the piece by 15 degrees, up and down arrow keys tilt it, Home
  shows the front. Drag a copy to move it, drag beside it to turn the piece.</p>
<p class="spoken" role="status" aria-live="polite"></p>
<div class="read"><span class="angle"></span><span class="side"></span></div>
<div class="sides" role="group" aria-label="Side that faces you"></div>`;
