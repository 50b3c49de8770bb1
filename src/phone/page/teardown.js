import {make, key, button, field, choice, tick, fold, large, warning, address} from './elements.js';
import {state, tap, takeBack, view, waiting} from './link.js';

const kept = {};         // what stands in fields and folds; by joint where it is of one
let skipped = new Set();
let skippedOf = '';
let chosen = null;       // a position that was tapped
let again = '';          // the joint of which it was said that it comes apart again

// What the logbook showed, with what waits to be sent shown as done.
function withWaiting(shown) {
  const rows = shown.positions.map((row) => ({...row, readings: [...row.readings],
    ladder: [...(row.ladder || [])]}));
  for (const deed of waiting(shown)) {
    if (deed.joint !== shown.joint) continue;
    const row = rows.find((each) => each.position === deed.position);
    if (!row) continue;
    if (deed.kind === 'out' && row.state === 'in') {
      const nothing = ['sheared', 'empty'].includes(deed.broke) || deed.marked === false;
      row.state = nothing || row.wrench === undefined ? 'done' : 'untested';
      row.bag = deed.bag || row.bag;
    } else if (deed.kind === 'keep') {
      row.bag = deed.bag || row.bag;
    } else if (deed.kind === 'pull') {
      const setting = Number(deed.setting);
      const reached = deed.mark === 'on' || deed.mark === 'past';
      row.state = reached ? 'done' : 'testing';
      row.wrench = deed.wrench;
      row.readings.push({setting, mark: deed.mark});
      row.ladder = row.ladder.filter((rung) => rung.setting > setting);
    } else if (deed.kind === 'enter') {
      row.state = 'done';
    }
  }
  return rows;
}

const isOpen = (row) => row.state !== 'done' && !skipped.has(row.position);

function nextOf(rows) {
  if (chosen !== null) {
    const row = rows.find((each) => each.position === chosen);
    if (row && row.state !== 'done') return row;
  }
  return rows.find((row) => row.state === 'testing') || rows.find(isOpen);
}

const out = (shown, row, broke) => {
  const deed = {kind: 'out', joint: shown.joint, position: row.position, broke,
    marked: !kept.unmarked};
  if (kept.bag) deed.bag = kept.bag;
  if (kept.note) deed.note = kept.note;
  kept.note = '';
  kept.unmarked = false;
  chosen = null;
  tap(deed, `${address(shown.joint, row.position)} out, ${broke}`);
};

function breakLoose(shown, row) {
  const labels = {normal: 'It came loose', tight: 'Tight', seized: 'Seized', loose: 'Was loose',
    sheared: 'Sheared', empty: 'No bolt'};
  return [
    make('p', {class: 'do'}, kept.unmarked
      ? 'No mark. Break it loose with the breaker bar.'
      : 'Draw the mark across head and part, then break it loose with the breaker bar.'),
    make('div', {class: 'keys'}, shown.broke.map((word, i) => {
      const made = key(labels[word] || word, () => out(shown, row, word), i === 0 ? 'whole' : 'second');
      return made;
    })),
    tick('No mark was drawn: there is nothing to test', 'unmarked', kept, () => redraw())
  ];
}

const pull = (shown, row, setting, mark) => {
  const deed = {kind: 'pull', joint: shown.joint, position: row.position, wrench: row.wrench,
    setting: String(setting), mark};
  if (kept.restart) deed.restart = kept.restart;
  kept.setting = '';
  if (mark === 'on' || mark === 'past') chosen = null;
  tap(deed, `${address(shown.joint, row.position)} ${setting} ${mark}`);
};

let pinned = {of: '', rung: null};

// What is to be pulled at. It stays as it was shown until it is tapped, whatever becomes known
// meanwhile: the wrench is set to it already, and what is recorded is what it was set to.
function nextRung(shown, row) {
  const rung = row.ladder[0];
  const of = [shown.joint, row.position, row.readings.length, row.wrench].join(' ');
  if (pinned.of !== of || !rung || !pinned.rung) pinned = {of, rung};
  return pinned.rung;
}

// What became known meanwhile asks for less: told, and taken once it is tapped.
function lessAsked(row, rung) {
  const now = row.ladder[0];
  if (!rung || !now || now.setting >= rung.setting) return false;
  return make('div', {}, warning([
    `By what the logbook knows now ${now.setting} ${row.unit} comes next.`]),
  button(`Set ${row.wrench} to ${now.setting}`, () => { pinned = {...pinned, rung: now}; redraw(); }));
}

function test(shown, row) {
  if (row.wrenches) return wrenches(row);
  const own = (kept.setting || '').trim().replace(',', '.');
  const rung = nextRung(shown, row);
  const setting = own !== '' ? own : rung ? String(rung.setting) : null;
  const marks = [['short', 'Short'], ['on', 'On'], ['past', 'Past'], ['no-move', 'No move']];
  const lastMoved = row.readings.length === 0 ||
    row.readings[row.readings.length - 1].mark !== 'no-move';
  return [
    make('div', {class: 'figures'},
      setting !== null && large(`set ${row.wrench} to`, setting, row.unit)),
    make('p', {class: setting === null ? 'warn' : 'soft'},
      setting === null ? row.stop || 'The next setting is known once the link is back; type one.'
        : own !== '' ? 'Your own setting.' : rung.why),
    own === '' && lessAsked(row, rung),
    row.readings.length > 0 && make('ul', {class: 'pulls', 'aria-label': 'Pulls so far'},
      row.readings.map((reading) => make('li', {}, `${reading.setting} ${reading.mark}`))),
    setting !== null && make('p', {class: 'do'}, 'Pull. Where does the mark stand?'),
    setting !== null && make('div', {class: 'keys'},
      marks.map(([word, label]) => key(label, () => pull(shown, row, setting, word)))),
    !lastMoved && make('p', {class: 'warn'}, 'Nothing moved. From here on the fastener can be backed off before each pull.'),
    !lastMoved && tick('Backed off before each pull', 'backed', kept, () => {
      kept.restart = kept.backed ? 'backed-off' : '';
      redraw();
    }),
    fold('Other setting, or stop here', kept,
      field(`Setting on ${row.wrench}, ${row.unit}`, 'setting', kept,
        {inputmode: 'decimal', change: () => redraw()}),
      make('div', {class: 'row'}, button('Use this setting', () => redraw()),
        row.readings.length > 0 && button('Enter as far as it came', () =>
          tap({kind: 'enter', joint: shown.joint, position: row.position},
            `${address(shown.joint, row.position)} entered as it stands`)),
        button('Another wrench', () => { kept.wrench = ''; kept.ask = true; redraw(); })))
  ];
}

function wrenches(row) {
  const {fit, covering, run_out: runOut, others, range, names} = row.wrenches;
  return [
    make('p', {class: 'do'}, 'Which wrench?'),
    range && make('p', {}, 'It has to cover ' + range + '.'),
    make('div', {class: 'keys'}, fit.map((name) =>
      key(name, () => { kept.wrench = name; redraw(true); }, 'second'))),
    ...[['', covering], ['Out of calibration', runOut], ['Does not cover it', others]]
      .filter(([, lines]) => lines.length > 0)
      .map(([what, lines]) => make('p', {class: 'soft'}, (what && what + ': ') + lines.join(', '))),
    choice('Any of them', 'anyWrench', names, kept),
    button('Take that one', () => { kept.wrench = kept.anyWrench; redraw(true); })
  ];
}

function askWrench(rows) {
  const row = rows.find((each) => each.wrench);
  return [make('p', {class: 'do'}, 'Which wrench from here on?'),
    field('Name of the wrench', 'otherWrench', kept, {}),
    button('Take it', () => {
      kept.wrench = kept.otherWrench.trim() || (row ? row.wrench : '');
      kept.ask = false;
      redraw(true);
    })];
}

function bagAndNote(shown, row) {
  const isOut = row.state !== 'in';
  return fold('Bag and note', kept,
    field('Bag' + (isOut ? '' : ', kept for those that follow'), 'bag', kept),
    field(isOut ? 'Note' : 'Note of this one', 'note', kept),
    isOut && button('Write it down', () => {
      const deed = {kind: 'keep', joint: shown.joint, position: row.position};
      if (kept.bag) deed.bag = kept.bag;
      if (kept.note) deed.note = kept.note;
      kept.note = '';
      tap(deed, `${address(shown.joint, row.position)} bag or note`);
    }));
}

let redraw = () => {};

export async function teardown(joint, draw) {
  redraw = draw;
  if (skippedOf !== joint) {
    skipped = new Set();
    skippedOf = joint;
    chosen = null;
  }
  const query = new URLSearchParams({joint});
  if (kept.wrench) query.set('wrench', kept.wrench);
  if (kept.restart) query.set('restart', kept.restart);
  const shown = await view('/api/teardown?' + query);
  return () => {
    if (!shown.positions) {
      return [make('h1', {}, joint), make('p', {class: 'refused'}, shown.refused)];
    }
    const rows = withWaiting(shown);
    const row = nextOf(rows);
    const title = row ? address(shown.joint, row.position) : shown.joint;
    const head = make('h1', {}, title, make('span', {class: 'place'},
      ` ${rows.filter((each) => each.state === 'done').length} of ${rows.length} done`));
    const positions = fold('Positions', kept, make('div', {class: 'positions'}, rows.map((each) =>
      make('button', {
        type: 'button', class: each.state === 'done' ? 'done' : '',
        'aria-current': row && each.position === row.position ? 'true' : null,
        'aria-label': `position ${each.position}, ${each.state}`, 'data-key': 'p' + each.position,
        click: () => { chosen = each.position; skipped.delete(each.position); redraw(); }
      }, each.position))));
    if (shown.refused) return [head, make('p', {class: 'refused'}, shown.refused)];
    if (shown.again && again !== shown.joint) {
      return [head, make('p', {class: 'warn'}, shown.again + '.'),
        key('Take it apart again', () => { again = shown.joint; redraw(); }, 'second')];
    }
    if (kept.ask) return [head, ...askWrench(rows)];
    if (!row) {
      return [head, make('p', {class: 'do'}, skipped.size > 0
        ? 'Done, but for what was skipped.' : 'All of it is out and tested.'),
        make('div', {class: 'keys'},
          skipped.size > 0 && key('Go through the skipped', () => { skipped.clear(); redraw(); }, 'second whole'),
          make('a', {class: 'button key second whole', href: '#/'}, 'Home')), positions];
    }
    return [
      head,
      row.state === 'in' && row.position === rows[0].position && make('p', {class: 'soft'}, shown.opening),
      warning(shown.warnings),
      row.nothing && make('p', {class: 'warn'}, row.nothing),
      ...(row.state === 'in' ? breakLoose(shown, row) : test(shown, row)),
      make('div', {class: 'row'},
        button('Skip', () => { skipped.add(row.position); chosen = null; redraw(); }),
        button('Undo', () => { takeBack(); chosen = null; })),
      bagAndNote(shown, row),
      positions
    ];
  };
}
