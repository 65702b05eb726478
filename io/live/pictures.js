'use strict';
// The pictures: the core from the side with its stations, the board from above, the cross-section.
const NS = 'http://www.w3.org/2000/svg';
const $ = id => document.getElementById(id);
function svg(parent, name, attributes, text) {
  const e = document.createElementNS(NS, name);
  for (const k in attributes) e.setAttribute(k, attributes[k]);
  if (text !== undefined) e.textContent = text;
  parent.appendChild(e);
  return e;
}
function put(e, attributes) { for (const k in attributes) e.setAttribute(k, attributes[k]); }
function html(parent, name, text, attributes) {
  const e = document.createElement(name);
  if (text !== undefined) e.textContent = text;
  for (const k in attributes || {}) e.setAttribute(k, attributes[k]);
  parent.appendChild(e);
  return e;
}
const short = v => String(Number(Number(v).toPrecision(8)));
const clean = n => n.toFixed(1);

const margin = 18, sideHeight = 210, ground = 176, reach = 132;
/// Pixels of a picture for the board's x; the same for side and plan.
function frame() {
  const xs = board.shape.outline.concat(shape.outline).map(p => p[0]);
  const low = Math.min(...xs), high = Math.max(...xs), width = Math.max(200, $('side').clientWidth || 960);
  const k = (width - 2 * margin) / (high - low);
  return {low, high, width, k, x: v => margin + (v - low) * k, back: px => low + (px - margin) / k};
}
let handles = new Map(), sideParts = null;
function buildSide() {
  const side = $('side');
  side.textContent = '';
  handles = new Map();
  sideParts = null;
  if (!board.shape.profile) { put(side, {viewBox: '0 0 ' + frame().width + ' 40'}); svg(side, 'text', {x: margin, y: 25}, 'This board has no core.'); return; }
  sideParts = {core: svg(side, 'polygon', {'class': 'core'}), opened: svg(side, 'polyline', {'class': 'opened'}), tail: svg(side, 'text', {}, 'tail'), nose: svg(side, 'text', {'text-anchor': 'end'}, 'nose')};
  board.shape.profile.stations.forEach((s, i) => {
    const path = 'core.thickness_mm[' + i + ']';
    if (opened(path)) handles.set(path, makeHandle(side, path, s[0]));
  });
}
function makeHandle(side, path, x) {
  const v = opened(path), text = svg(side, 'text', {'text-anchor': 'middle'});
  const g = svg(side, 'g', {'class': 'handle', tabindex: 0, role: 'slider', 'aria-label': 'core thickness at x = ' + short(x) + ' mm',
    'aria-valuemin': v.min, 'aria-valuemax': v.max, 'aria-orientation': 'vertical', 'data-path': path});
  const hit = svg(g, 'circle', {'class': 'hit', r: 16}), dot = svg(g, 'circle', {'class': 'dot', r: 7});
  g.addEventListener('keydown', event => {
    const up = {ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10}[event.key];
    if (!up || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    set(path, Math.round((valueAt(path, changes) + up * (event.shiftKey ? 0.5 : 0.05)) * 1000) / 1000, null, 'keys');
  });
  return {g, hit, dot, text, x};
}
let scale = 1; // pixels of the side view for a millimetre of thickness
function drawSide() {
  if (!sideParts) return;
  const f = frame(), profile = shape.profile, most = Math.max(...profile.z, ...board.shape.profile.z);
  scale = reach / most;
  put($('side'), {viewBox: '0 0 ' + f.width + ' ' + sideHeight, height: sideHeight});
  $('side-title').textContent = 'Core from the side, height ' + (scale / f.k).toFixed(0) + ' times. Drag a station, or use the arrow keys: 0.05 mm, with shift 0.5 mm.';
  const line = p => p.x.map((x, i) => clean(f.x(x)) + ',' + clean(ground - p.z[i] * scale)).join(' ');
  put(sideParts.core, {points: clean(f.x(profile.x[0])) + ',' + ground + ' ' + line(profile) + ' ' + clean(f.x(profile.x[profile.x.length - 1])) + ',' + ground});
  put(sideParts.opened, {points: line(board.shape.profile)});
  put(sideParts.tail, {x: margin, y: sideHeight - 4});
  put(sideParts.nose, {x: f.width - margin, y: sideHeight - 4});
  const free = [-1e9, -1e9], last = []; // where the last label ends, and it: above and below
  for (const [path, h] of handles) {
    const value = valueAt(path, changes), px = f.x(h.x), py = ground - value * scale, changed = path in changes;
    put(h.hit, {cx: clean(px), cy: clean(py)});
    put(h.dot, {cx: clean(px), cy: clean(py)});
    put(h.g, {'aria-valuenow': value, 'aria-valuetext': short(value) + ' mm'});
    const text = value.toFixed(2), half = text.length * 3.4 + 2;
    const row = px - half > free[0] ? 0 : px - half > free[1] ? 1 : changed ? 0 : -1;
    if (row >= 0) {
      if (px - half <= free[row]) last[row].textContent = ''; // a changed one takes its place
      free[row] = px + half;
      last[row] = h.text;
    }
    h.text.textContent = row < 0 ? '' : text;
    put(h.text, {x: clean(px), y: row === 1 ? ground + 15 : clean(Math.max(12, py - 14)), 'class': changed ? 'changed' : ''});
  }
}
function grab(event) {
  if (!sideParts || event.button > 0 || !event.target.classList.contains('hit') && !event.target.classList.contains('dot')) return;
  const box = $('side').getBoundingClientRect(), per = frame().width / box.width;
  const px = (event.clientX - box.left) * per, f = frame();
  const [path, h] = [...handles].reduce((a, b) => Math.abs(f.x(a[1].x) - px) <= Math.abs(f.x(b[1].x) - px) ? a : b);
  event.preventDefault();
  h.g.focus();
  const start = valueAt(path, changes), y = event.clientY, v = opened(path), fixed = scale;
  let last = start;
  const move = m => {
    const wanted = Math.round((start - (m.clientY - y) * per / fixed) * 20) / 20;
    last = Math.min(v.max, Math.max(Math.max(v.min, 0.05), Math.abs(wanted - start) < 0.05 ? start : wanted));
    changes = withValue(changes, path, last);
    say('Predictions; solved when you let go.');
    showNumbers(); preview();
  };
  const end = () => {
    for (const name of ['pointermove', 'pointerup', 'pointercancel']) removeEventListener(name, name === 'pointermove' ? move : end);
    changes = good;
    if (last !== start) set(path, last); else refresh();
  };
  addEventListener('pointermove', move);
  addEventListener('pointerup', end);
  addEventListener('pointercancel', end);
}

function drawPlan() {
  const f = frame(), plan = $('plan'), wide = Math.max(...shape.outline.map(p => Math.abs(p[1]))), top = 12, height = 2 * wide * f.k + 2 * top;
  plan.textContent = '';
  put(plan, {viewBox: '0 0 ' + f.width + ' ' + clean(height)});
  const Y = y => height / 2 - y * f.k, points = list => list.map(p => clean(f.x(p[0])) + ',' + clean(Y(p[1]))).join(' ');
  const outline = points(shape.outline), defs = svg(plan, 'defs', {});
  svg(svg(defs, 'clipPath', {id: 'inside'}), 'polygon', {points: outline});
  svg(plan, 'polygon', {'class': 'core', points: outline});
  const inside = svg(plan, 'g', {'clip-path': 'url(#inside)'});
  if (painted) paint(inside, f, Y);
  shape.zones.forEach((z, i) => {
    if (z.points) { if (!painted) svg(svg(inside, 'polygon', {'class': 'zone', points: points(z.points)}), 'title', {}, z.layer); return; }
    const mask = svg(defs, 'mask', {id: 'band' + i, maskUnits: 'userSpaceOnUse', x: 0, y: 0, width: f.width, height});
    for (const [distance, color] of [[z.to, 'white'], [z.from, 'black']])
      if (distance > 0) svg(mask, 'polygon', {points: outline, fill: 'none', stroke: color, 'stroke-width': clean(2 * distance * f.k)});
    const from = f.x(Math.max(z.x[0], f.low)), to = f.x(Math.min(z.x[1], f.high));
    svg(svg(inside, 'rect', {'class': z.layer === 'edge' || z.layer === 'sidewall' ? 'band' : 'band ofLayer', x: clean(from), width: clean(Math.max(0, to - from)), y: 0, height: clean(height), mask: 'url(#band' + i + ')'}), 'title', {}, z.layer);
  });
  svg(plan, 'polygon', {'class': 'outline', points: outline});
  for (const x of shape.contact) svg(plan, 'line', {'class': 'contact', x1: clean(f.x(x)), x2: clean(f.x(x)), y1: 2, y2: clean(height - 2)});
  for (const q of shape.feet) svg(plan, 'rect', {'class': 'foot', x: clean(f.x(q[0])), y: clean(Y(q[3])), width: clean((q[2] - q[0]) * f.k), height: clean((q[3] - q[1]) * f.k)});
  const at = clean(f.x(place()));
  svg(plan, 'line', {'class': 'at', x1: at, x2: at, y1: 0, y2: clean(height)});
}
// Cells by shade, one path a shade: quick to draw.
const shades = 12;
function paint(parent, f, Y) {
  const most = Math.max(...painted.cells.map(c => Math.abs(c[0]))) || 1, paths = new Map();
  for (const c of painted.cells) {
    const n = Math.round(c[0] / most * shades);
    if (n) paths.set(n, (paths.get(n) || '') + 'M' + [1, 3, 5, 7].map(i => clean(f.x(c[i])) + ' ' + clean(Y(c[i + 1]))).join('L') + 'Z');
  }
  for (const [n, d] of paths) svg(parent, 'path', {d, 'class': n < 0 ? 'minus' : 'plus', 'fill-opacity': (Math.abs(n) / shades).toFixed(2)});
}
function drawLegend() {
  const place = $('legend');
  place.textContent = '';
  if (!painted || !painted.cells.length) { if (painted) html(place, 'p', 'There is nothing to show.'); return; }
  const values = painted.cells.map(c => c[0]), low = Math.min(...values), high = Math.max(...values), most = Math.max(-low, high) || 1;
  html(place, 'p', painted.title + ': from ' + low.toPrecision(3) + ' to ' + high.toPrecision(3) + ' ' + painted.unit + (painted.load ? ', load ' + painted.load : '') + (painted.old ? ' (before the last change)' : ''));
  const key = svg(place, 'svg', {viewBox: '0 0 420 32', role: 'img', 'aria-label': 'shades from ' + (-most).toPrecision(3) + ' to ' + most.toPrecision(3) + ' ' + painted.unit});
  for (let n = -shades; n <= shades; ++n)
    if (n) svg(key, 'rect', {x: 210 + n * 12 - 6, y: 0, width: 12, height: 12, 'class': n < 0 ? 'minus' : 'plus', 'fill-opacity': (Math.abs(n) / shades).toFixed(2)});
  [[60, -most, 'start'], [210, 0, 'middle'], [360, most, 'end']].forEach(t => svg(key, 'text', {x: t[0], y: 27, 'text-anchor': t[2]}, t[1] ? t[1].toPrecision(3) : '0'));
}
function drawSection() {
  const s = $('section'), list = $('section-layers'), cut = shape.section;
  s.textContent = list.textContent = '';
  $('section-title').textContent = 'Cross-section at x = ' + short(place()) + ' mm, to scale, right side of the board left';
  if (!cut) { put(s, {viewBox: '0 0 ' + frame().width + ' 40'}); svg(s, 'text', {x: margin, y: 25}, 'The board has no width there.'); return; }
  const width = Math.max(200, s.clientWidth || 960), ys = cut.parts.flatMap(p => p.y), zs = cut.parts.flatMap(p => p.layers.flatMap(l => l.z));
  const half = Math.max(...ys.map(Math.abs)), k = Math.min((width / 2 - 4) / half, 12), low = Math.min(...zs), high = Math.max(...zs), seen = new Map();
  put(s, {viewBox: '0 0 ' + width + ' ' + clean((high - low) * k + 10)});
  for (const p of cut.parts) for (const l of p.layers) {
    const name = l.name + ', ' + l.material, thick = l.z[1] - l.z[0];
    if (!seen.has(name)) seen.set(name, {i: seen.size, least: thick, most: thick, top: 0});
    const one = seen.get(name);
    one.top = Math.max(one.top, l.z[1] + l.z[0]);
    one.least = Math.min(one.least, thick);
    one.most = Math.max(one.most, thick);
    svg(svg(s, 'rect', {'class': 'layer L' + one.i % 10, x: clean(width / 2 + p.y[0] * k), width: clean((p.y[1] - p.y[0]) * k),
      y: (5 + (high - l.z[1]) * k).toFixed(2), height: Math.max(0, thick * k).toFixed(2)}), 'title', {}, name);
  }
  for (const [name, one] of [...seen].sort((a, b) => b[1].top - a[1].top)) {
    const li = html(list, 'li'), most = one.most.toFixed(2), least = one.least.toFixed(2);
    svg(svg(li, 'svg', {viewBox: '0 0 16 12', 'aria-hidden': 'true'}), 'rect', {'class': 'layer L' + one.i % 10, width: 16, height: 12});
    html(li, 'span', name + ', ' + (least === most ? most : least + ' to ' + most) + ' mm');
  }
}
function draw() { drawSide(); drawPlan(); drawSection(); }
