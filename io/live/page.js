'use strict';
// What the page holds, what it asks of the server, and its controls.
const token = location.search.slice(1);
const tab = String(Math.random()).slice(2);
let board = null;                 // the file as opened
let changes = {}, good = {};      // path to value: what is shown, and what the reader last accepted
let past = [], future = [];       // accepted sets, for undo and redo
let first = null, reference = null; // numbers of the file as opened; those that changes are told against
let solved = null, solvedAt = {}; // the last solved numbers and their set
let known = null;                 // the last slopes: paths, and by number
let shape = null, painted = null;
const place = () => Number($('at').value) || 0;

async function ask(path, body, set, signal) {
  const options = body ? {method: 'POST', signal, body: JSON.stringify(Object.assign({revision: board && board.revision, changes: set || {}, page: tab}, body))} : {};
  const response = await fetch(path + '?' + token, options), json = await response.json();
  if (response.ok) return json;
  const error = new Error(json.problems.map(p => (p.place ? p.place + ': ' : '') + p.message).join('\n'));
  error.status = response.status;
  throw error;
}
const say = text => { $('state').textContent = text; };
function showNotes(notes) {
  const box = $('notes'), list = box.querySelector('ul');
  box.hidden = !notes.length;
  box.querySelector('summary').textContent = notes.length + (notes.length === 1 ? ' note' : ' notes') + ' on this board';
  list.textContent = '';
  for (const note of notes) html(list, 'li', note);
}
const complain = error => { if (error.name !== 'AbortError' && error.status !== 410) $('problem').textContent = error.status ? error.message : 'vrid live does not answer; was it ended?'; };
function withValue(set, path, value) {
  const next = Object.assign({}, set);
  if (value === opened(path).value) delete next[path]; else next[path] = value;
  return next;
}
function refresh() { draw(); showNumbers(); fields(); }

// One change after another goes through the reader's own check; refused, the board stays as it was.
let queue = Promise.resolve(), pending = 0, newest = {path: '', time: 0};
function act(make, accepted, field) {
  ++pending;
  return queue = queue.then(async () => {
    const next = make(), before = good;
    if (!next) { --pending; return; }
    try {
      const got = await ask('shape', {x: place()}, next);
      shape = got;
      good = next;
      accepted(before);
      $('problem').textContent = '';
      if (field) welcome(field);
    } catch (error) {
      if (field && error.status === 422) refuse(field, error.message);
      complain(error);
    }
    if (--pending === 0) { changes = good; refresh(); solve(); }
  });
}
function set(path, value, field, how) {
  const again = how === 'keys' && newest.path === path && Date.now() - newest.time < 1000;
  newest = {path: how === 'keys' ? path : '', time: Date.now()};
  changes = withValue(changes, path, value);
  showNumbers();
  drawSide();
  act(() => withValue(good, path, value), before => { if (!again || !past.length) past.push(before); future = []; }, field);
}
const undo = () => act(() => past[past.length - 1], before => { past.pop(); future.push(before); });
const redo = () => act(() => future[future.length - 1], before => { future.pop(); past.push(before); });
const reset = () => act(() => Object.keys(good).length ? {} : null, before => {
  past.push(before);
  future = [];
  document.querySelectorAll('[aria-invalid]').forEach(welcome);
});
// While a station is dragged: the shape follows as fast as it is answered.
let previewing = false;
async function preview() {
  drawSide();
  if (previewing) return;
  previewing = true;
  const asked = changes;
  try { const got = await ask('shape', {x: place()}, asked); if (changes !== good || asked === good) { shape = got; draw(); } } catch (error) { /* told on release */ }
  previewing = false;
  if (changes !== asked && changes !== good) preview();
}

let running = null;
async function solve() {
  if (running) running.abort();
  const mine = running = new AbortController(), at = good;
  try {
    if (stale() || !solved) {
      say('Solving.');
      const got = await ask('solve', {}, at, mine.signal);
      if (running !== mine) return;
      solved = got;
      solvedAt = at;
      if (!first) { first = got; if (!$('other').value) reference = got; fillPicked(); }
      showNumbers();
    }
    const picked = solved.numbers.find(n => n.name === $('picked').value);
    say('Solved' + (picked && past.length ? ': ' + picked.name + ' ' + picked.shown + ' ' + picked.unit : '') + '.');
    showNotes(board.warnings.concat(solved.warnings));
    await repaint();
    if (running !== mine || known && known.at === at) return;
    const sloped = await ask('solve', {slopes: true}, at, mine.signal); // for the next predictions
    known = {at, paths: sloped.paths, of: new Map(sloped.numbers.map(n => [n.name, n.slopes]))};
    fillSteps();
  } catch (error) { if (running === mine) say(''); complain(error); }
}
async function repaint() {
  const what = $('over').value, at = good;
  if (!what) { painted = null; drawPlan(); drawLegend(); return; }
  if (painted) { painted.old = painted.at !== at || painted.what !== what; drawLegend(); }
  if (painted && !painted.old) return;
  try {
    const got = await ask('over', {what}, at);
    if (what !== $('over').value || at !== good) return;
    painted = Object.assign(got, {at, title: $('over').selectedOptions[0].textContent});
    drawPlan();
    drawLegend();
  } catch (error) { complain(error); }
}
let moving = false;
async function cut() {
  if (moving) return;
  moving = true;
  const x = place(), at = good;
  try {
    const got = await ask('shape', {x}, at);
    if (at === good && changes === good) { shape = got; drawPlan(); drawSection(); }
  } catch (error) { complain(error); }
  moving = false;
  if (place() !== x) cut();
}

async function open() {
  const got = await ask('board');
  board = got;
  changes = good = {};
  past = [];
  future = [];
  first = solved = painted = known = null;
  solvedAt = {};
  shape = board.shape;
  $('name').textContent = board.name;
  $('file').textContent = board.file;
  $('caution').textContent = board.caution;
  $('thinner').textContent = 'A section is thinner than in the file. Strength is not covered here: vrid strength compares layups, the bench decides.';
  document.title = board.name + ', vrid live';
  const kept = $('other').value;
  [...$('other').options].slice(1).forEach(o => o.remove());
  for (const f of board.files) html($('other'), 'option', f, {value: f});
  $('other').value = board.files.includes(kept) ? kept : '';
  $('problem').textContent = '';
  showNotes(board.warnings);
  $('external').hidden = true;
  buildSide();
  fillValues();
  refresh();
  drawLegend();
  await cut();
  await solve();
}
let writing = '';
async function ready(as) {
  writing = as;
  $('dialog-problem').textContent = '';
  try {
    await queue;
    const got = await ask('lines', {}, good);
    $('dialog-title').textContent = as ? 'Write as a new file' : 'Write ' + board.file;
    $('dialog-text').textContent = as ? 'A file beside ' + board.file + ', which stays. These lines differ from it:' : 'Only these lines change:';
    $('diff').textContent = got.lines.map(l => (l.added ? '+ ' : '\u2212 ') + l.line + ': ' + l.text).join('\n') || 'none';
    $('as').hidden = !as;
    $('dialog').showModal();
  } catch (error) { complain(error); }
}
async function write() {
  try {
    const done = await ask('write', writing ? {name: $('as-name').value.trim()} : {}, good);
    $('dialog').close();
    if (!writing) await open(); else html($('other'), 'option', done.written, {value: done.written});
    say('Written: ' + done.written + '.');
  } catch (error) { $('dialog-problem').textContent = error.message; }
}
let ignored = '', missed = 0;
async function look() {
  try {
    const now = (await ask('revision')).revision;
    if (missed) { missed = 0; $('problem').textContent = ''; }
    if (now === board.revision || now === ignored || pending || $('dialog').open) return;
    if (now && !Object.keys(changes).length) {
      ignored = now; // a file that cannot be read is complained about once
      await open();
      say('The file was changed in an editor; this is how it is now.');
      return;
    }
    ignored = now;
    $('external-text').textContent = now ? 'The file was changed in an editor.' : 'The file is gone or cannot be read.';
    $('external').hidden = false;
    $('follow').hidden = !now;
  } catch (error) { if (!error.status) ++missed; if (error.status || missed === 3) complain(error); }
}
$('undo').onclick = undo;
$('redo').onclick = redo;
$('reset').onclick = reset;
$('write').onclick = () => ready('');
$('write-as').onclick = () => ready('as');
$('dialog-yes').onclick = write;
$('dialog-no').onclick = () => $('dialog').close();
$('as-name').onkeydown = e => { if (e.key === 'Enter') write(); };
$('follow').onclick = () => open().catch(complain);
$('stay').onclick = () => { $('external').hidden = true; };
$('picked').onchange = fillSteps;
$('over').onchange = repaint;
$('at').oninput = cut;
$('side').addEventListener('pointerdown', grab);
function pointAt(e) {
  if (!board) return;
  const box = $('plan').getBoundingClientRect(), f = frame();
  $('at').value = Math.round(f.back((e.clientX - box.left) / box.width * f.width));
  cut();
}
$('plan').addEventListener('pointermove', e => { if (e.pointerType === 'mouse') pointAt(e); });
$('plan').addEventListener('click', pointAt);
$('other').onchange = async () => {
  try { reference = $('other').value ? await ask('other', {name: $('other').value}) : first; $('problem').textContent = ''; } catch (e) { $('other').value = ''; reference = first; complain(e); }
  showNumbers();
};
addEventListener('keydown', e => {
  if (!(e.ctrlKey || e.metaKey) || $('dialog').open || e.target.matches('input')) return;
  const key = e.key.toLowerCase();
  if (key === 'z' || key === 'y') { e.preventDefault(); if (key === 'y' || e.shiftKey) redo(); else undo(); }
});
addEventListener('beforeunload', e => { if (Object.keys(good).length) e.preventDefault(); });
new ResizeObserver(() => { if (board) draw(); }).observe($('side').parentNode);
open().then(() => setInterval(look, 1000), complain);
