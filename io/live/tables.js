'use strict';
// The tables: numbers with their predictions, and the values of the board with their fields.
const opened = path => board.values.find(v => v.path === path);
const valueAt = (path, set) => path in set ? set[path] : opened(path) ? opened(path).value : NaN;

// Slopes come a little after the numbers: those of an earlier set until then.
function slopeOf(number, path) {
  const slopes = known && known.of.get(number.name), i = known ? known.paths.indexOf(path) : -1;
  return slopes && i >= 0 ? slopes[i] : undefined;
}
// First order: slopes of the last solve times what has changed since. null: a change without slopes.
function predicted(number) {
  let value = number.value;
  for (const path of new Set(Object.keys(changes).concat(Object.keys(solvedAt)))) {
    const from = valueAt(path, solvedAt), to = valueAt(path, changes);
    if (from === to) continue;
    const slope = slopeOf(number, path);
    if (slope === undefined || typeof to !== 'number') return null;
    const scaled = /^core\.thickness_mm/.test(path) && opened('core.thickness_scale') ? valueAt('core.thickness_scale', solvedAt) : 1;
    value += slope * (opened(path).scale ? to / from - 1 : (to - from) * scaled);
  }
  return value;
}
function stale() { return JSON.stringify(sorted(changes)) !== JSON.stringify(sorted(solvedAt)); }
function sorted(set) { return Object.keys(set).sort().map(k => [k, set[k]]); }

let rows = new Map();
function numberRow(n) {
  const row = html($('numbers'), 'tr');
  const head = html(row, 'th', undefined, {scope: 'row'}), parts = {row};
  html(head, 'div', n.name);
  parts.limit = html(head, 'div');
  const cell = html(row, 'td'), first = html(cell, 'div');
  parts.about = html(first, 'span', '');
  parts.value = html(first, 'output', '', {'aria-label': n.name, 'aria-live': 'off'});
  first.append(' '); // where a narrow window may break
  parts.error = html(first, 'span', '', {'class': 'error'});
  first.append(' ');
  parts.unit = html(first, 'span', '', {'class': 'unit'});
  const change = html(row, 'td');
  parts.percent = html(change, 'div');
  parts.change = html(change, 'div', '', {'class': 'error'});
  return parts;
}
function verdict(n, value) {
  if (!('min' in n) && !('max' in n)) return '';
  if (value === n.value) return n.limit;
  return value === null ? '' : 'min' in n && value < n.min || 'max' in n && value > n.max ? 'outside' : 'within';
}
function showNumbers() {
  if (!solved) return;
  const names = solved.numbers.map(n => n.name);
  if ([...rows.keys()].join() !== names.join()) { $('numbers').textContent = ''; rows = new Map(solved.numbers.map(n => [n.name, numberRow(n)])); }
  const old = stale();
  for (const n of solved.numbers) {
    const r = rows.get(n.name), value = old ? predicted(n) : n.value, digits = (n.shown.split('.')[1] || '').length;
    r.about.textContent = old && value !== null ? 'about ' : '';
    r.value.textContent = !old || value === null ? n.shown : value.toFixed(digits).replace(/^-(0\.?0*)$/, '$1');
    r.value.className = !old ? '' : value === null ? 'old' : 'about';
    r.value.setAttribute('data-state', !old ? 'solved' : value === null ? 'old' : 'about');
    r.about.className = 'about';
    r.unit.textContent = n.unit;
    r.error.textContent = !old && Number(n.bar) ? '+- ' + n.bar : '';
    const before = reference && reference.numbers.find(o => o.name === n.name), d = before && value !== null ? value - before.value : null;
    const none = d === null || Math.abs(d) < 0.5 * Math.pow(10, -digits);
    const percent = none || n.position || !before.value ? '' : signed(100 * d / before.value, 2) + ' %';
    r.percent.textContent = d === null ? '' : none ? 'none' : percent || signed(d, digits) + ' ' + n.unit;
    r.change.textContent = percent ? signed(d, digits) + ' ' + n.unit : '';
    const word = verdict(n, value), mark = {within: '\u2713 ', outside: '\u2717 '}[word] || '~ ';
    const range = 'min' in n && 'max' in n ? n.min + ' to ' + n.max : 'min' in n ? 'at least ' + n.min : 'at most ' + n.max;
    r.limit.textContent = word ? mark + word + ', ' + range : '';
    r.limit.className = word === 'outside' ? 'outside' : 'limit';
  }
}

const titles = {planform: 'Outline', edge: 'Edge', sidewall: 'Sidewall', tip_spacer: 'Tip spacer', stance: 'Stance', mass_only: 'Counted in mass only',
  core: 'Core', cure: 'Cure', layer: 'Layer', fabric: 'Fabric', material: 'Material'};
const order = ['planform', 'edge', 'sidewall', 'tip_spacer', 'stance', 'mass_only', 'cure', 'fabric', 'material'];
// "core.thickness_mm[3]" as people say it.
function spoken(v) {
  const station = v.path.match(/^core\.thickness_mm\[(\d+)\]$/);
  if (station && board.shape.profile) return 'thickness at x = ' + short(board.shape.profile.stations[station[1]][0]) + ' mm';
  const inside = v.path.slice((v.group + (v.part ? '.' + v.part : '')).length + 1);
  return inside.replace(/\[(\d+)\]\./g, (m, i) => ' ' + (Number(i) + 1) + ' ')
    .replace(/rectangle_mm\[(\d)\]$/, (m, i) => i === '0' ? 'length' : 'width')
    .replace(/(from|to)_mm\[(\d)\]$/, (m, end, i) => end + (i === '0' ? ' x' : ' y'))
    .replace(/_mm\[(\d)\]$/, (m, i) => i === '0' ? ' from' : ' to')
    .replace(/_(mm|deg|gsm|GPa|MPa|kgm3|C|g|1e6K|percent)\b/, '').replace(/^strips(_left|_right)? (\d+)/, (m, side, i) => 'strip ' + i + (side ? side.replace('_', ' ') : ''))
    .replace(/[._]/g, ' ').trim();
}
function fieldRow(box, v, number) {
  const row = html(box, 'div', undefined, {'class': 'row'}), id = 'value' + number;
  html(row, 'label', spoken(v), {'for': id, title: v.path});
  const field = html(row, v.choices ? 'select' : 'input', undefined, {id, 'data-value': v.path, 'aria-describedby': id + 'about', title: v.path});
  if (v.choices) for (const c of v.choices) html(field, 'option', c, {value: c});
  else put(field, {type: 'text', inputmode: 'decimal', autocomplete: 'off'});
  field.value = v.value;
  const give = given => {
    if (v.choices || Number.isFinite(given)) set(v.path, given, field); else refuse(field, 'found "' + field.value + '"; accepted: ' + v.accepted);
  };
  field.addEventListener('change', () => give(v.choices ? field.value : field.value.trim() === '' ? NaN : Number(field.value.replace(',', '.'))));
  field.addEventListener('keydown', event => {
    if (event.key === 'Escape') { welcome(field); fields(); }
    const up = {ArrowUp: 1, ArrowDown: -1}[event.key];
    if (!up || !v.step || v.choices) return;
    event.preventDefault();
    set(v.path, Number((valueAt(v.path, changes) + up * v.step * (event.shiftKey ? 10 : 1)).toPrecision(9)), field, 'keys');
  });
  html(row, 'span', v.unit || '');
  html(row, 'small', v.accepted ? v.accepted.replace(/^a number /, '') : '', {id: id + 'about', 'data-step': v.path});
}
function fillValues() {
  const place = $('values'), groups = new Map(), layers = board.shape.layers;
  place.textContent = '';
  for (const v of board.values) {
    const key = v.group + (v.part ? ' ' + v.part : '');
    if (!groups.has(key)) groups.set(key, {group: v.group, part: v.part, list: []});
    groups.get(key).list.push(v);
  }
  for (const l of layers) if (l.kind !== 'core' && !groups.has('layer ' + l.name)) groups.set('layer ' + l.name, {group: 'layer', part: l.name, list: []});
  const rank = g => g.group === 'layer' ? layers.findIndex(l => l.name === g.part) : g.group === 'core' ? layers.findIndex(l => l.kind === 'core') : 1000 + order.indexOf(g.group);
  let number = 0;
  for (const g of [...groups.values()].sort((a, b) => rank(a) - rank(b))) {
    const box = html(place, 'details'), layer = g.group === 'layer' && layers.find(l => l.name === g.part);
    html(box, 'summary', (titles[g.group] || g.group) + (g.part ? ' ' + g.part : '') + (layer ? ' (' + layer.of + ')' : ''));
    box.open = g.group === 'layer' || g.group === 'core';
    for (const v of g.list) fieldRow(box, v, number++);
  }
}
function refuse(field, message) {
  field.setAttribute('aria-invalid', 'true');
  field.parentNode.classList.add('refused');
  $(field.id + 'about').textContent = message;
}
function welcome(field) {
  if (!field.hasAttribute('aria-invalid')) return;
  field.removeAttribute('aria-invalid');
  field.parentNode.classList.remove('refused');
  fillSteps();
}
// Fields, buttons and notes say what the board is; a refused text stays until it is corrected.
function fields() {
  $('undo').disabled = !past.length;
  $('redo').disabled = !future.length;
  const changed = Object.keys(changes).length > 0;
  $('reset').disabled = $('write').disabled = !changed;
  $('write-as').disabled = !board;
  $('thinner').hidden = !thinner();
  for (const e of document.querySelectorAll('[data-value]')) {
    if (!e.hasAttribute('aria-invalid')) e.value = valueAt(e.dataset.value, changes);
    e.parentNode.classList.toggle('changed', e.dataset.value in changes);
  }
}
// Whether a section is thinner than in the file: a station, or one of the sections that are drawn.
function thinner() {
  if (Object.keys(changes).some(p => /thickness|areal_weight/.test(p) && changes[p] < opened(p).value)) return true;
  const total = p => Math.max(...p.layers.map(l => l.z[1])) - Math.min(...p.layers.map(l => l.z[0]));
  return shape.sections.some((s, i) => { const was = board.shape.sections[i]; return was && s.parts.length === was.parts.length && s.parts.some((p, j) => total(p) < total(was.parts[j]) - 1e-4); });
}
function fillPicked() {
  const keep = [$('picked').value, $('over').value], over = $('over');
  $('picked').textContent = '';
  over.textContent = '';
  html(over, 'option', 'nothing', {value: ''});
  for (const n of first.numbers) if ('position' in n) html($('picked'), 'option', n.name, {value: n.name});
  for (const [kind, title] of [['deflection', 'Deflection'], ['twist', 'Twist along the board']]) {
    const group = html(over, 'optgroup', undefined, {label: title});
    for (const c of board.cases) html(group, 'option', kind + ', ' + c, {value: kind + ' ' + c});
  }
  const sand = html(over, 'optgroup', undefined, {label: 'Where to sand'});
  if (board.shape.profile) for (const n of first.numbers) if ('position' in n && !n.name.startsWith('balance')) html(sand, 'option', 'where to sand for ' + n.name, {value: 'sanding ' + n.name});
  const wanted = keep[0] || 'nose-twist';
  if ([...$('picked').options].some(o => o.value === wanted)) $('picked').value = wanted;
  over.value = [...over.options].some(o => o.value === keep[1]) ? keep[1] : '';
}
function fillSteps() {
  if (!solved || !known) return;
  const n = solved.numbers.find(o => o.name === $('picked').value);
  for (const e of document.querySelectorAll('[data-step]')) {
    if (e.parentNode.classList.contains('refused')) continue;
    const v = opened(e.dataset.step), range = v.accepted ? v.accepted.replace(/^a number /, '') : '', slope = n && slopeOf(n, v.path);
    e.textContent = range + (slope !== undefined && v.step ? '; ' + v.step + (v.unit ? ' ' + v.unit : '') + ' more: ' +
      (Math.abs(slope * v.step) < 1e-7 * Math.abs(n.value) ? 'no change' : small(slope * v.step) + ' ' + n.unit) : '');
  }
}
const small = v => (v < 0 ? '\u2212' : '+') + Math.abs(v).toPrecision(2);
const signed = (v, digits) => (v < 0 ? '\u2212' : '+') + Math.abs(v).toFixed(digits);
