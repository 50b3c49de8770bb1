import {make, key, button, field, fold, list} from './elements.js';
import {tap, takeBack, view, waiting} from './link.js';

const kept = {};

const isSent = (shown, kind, row) => waiting(shown).some((deed) => deed.kind === kind &&
  deed.joint === row.joint && deed.positions === row.positions);

function due(row) {
  const name = 'counter ' + row.joint;
  return make('section', {},
    make('h2', {}, `${row.joint}/${row.positions}`, make('span', {class: 'place'}, ' ' + row.holds)),
    make('p', {}, 'Wipe off the teardown mark, then draw the final stripe across head and part.'),
    row.counter && field(`What the counter shows, such as 1240 ${row.counter}`, name, kept),
    make('div', {class: 'keys'}, key(`Drawn on ${row.joint}`, () => {
      const deed = {kind: 'stripe', joint: row.joint, positions: row.positions, wiped: true};
      if (kept[name]) deed.counter = kept[name];
      tap(deed, `${row.joint}/${row.positions} striped`);
    }, 'whole')));
}

function look(row) {
  const turned = 'turned ' + row.joint;
  const where = 'where ' + row.joint;
  const counter = 'reading ' + row.joint;
  if (kept[where] === undefined) kept[where] = row.positions;
  const send = (state) => {
    const deed = {kind: 'look', joint: row.joint, positions: kept[where], state};
    if (kept[counter]) deed.counter = kept[counter];
    tap(deed, `${row.joint}/${kept[where]} ${state}`);
  };
  return fold(`${row.joint}/${row.positions}`, kept,
    make('p', {}, row.holds),
    field('Which positions', where, kept),
    row.counter && field(`What the counter shows, such as 1240 ${row.counter}`, counter, kept),
    make('div', {class: 'keys'}, key(`In line: ${row.joint}`, () => send('aligned'), 'second whole')),
    field('Turned by, such as 15°', turned, kept),
    button('Record the turn', () => send('turned ' + (kept[turned] || ''))));
}

export async function stripe() {
  const shown = await view('/api/stripe');
  return () => {
    const head = make('h1', {}, 'Final stripes');
    if (!shown.due) return [head, make('p', {class: 'refused'}, shown.refused)];
    const left = shown.due.filter((row) => !isSent(shown, 'stripe', row));
    return [
      head,
      left.length === 0 && make('p', {class: 'do'}, 'No final stripe is due.'),
      ...left.map(due),
      shown.why_not.length > 0 && make('div', {class: 'warn'}, list(shown.why_not)),
      make('div', {class: 'row'}, button('Undo', () => takeBack())),
      make('h2', {}, 'Look again'),
      shown.looks.length > 0 && list(shown.looks.map((each) =>
        (each.overdue ? 'Overdue: ' : '') + each.says)),
      shown.striped.length === 0 && make('p', {class: 'soft'}, 'There is no final stripe to look at yet.'),
      ...shown.striped.map(look)
    ];
  };
}
