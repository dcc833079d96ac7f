// What is printed for the judges: every report as a page, and recipes made to break one.
import {execFileSync} from 'node:child_process';
import {mkdirSync, readdirSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';

/** As long as the reader takes a text to be, most of it unbroken. */
const long = 'abcdefghij '.repeat(30) + 'x'.repeat(670);

/** Recipes no cook would write: names that are markup, entities, from right to left, or far too long. */
const hostile = {
  'markup': 'Gel </title><script>alert(1)</script> &lt;b&gt; <img src=x onerror=alert(2)>',
  'rtl': '\u05d2\u05f3\u05dc \u05e8\u05d9\u05e6\u05d4 10 \u0645\u0639\u062c\u0648\u0646 (2)',
  'long': long,
};

function recipe(name, solids) {
  return {
    format: 'gelwright/recipe-1', name, note: name, form: 'pouch',
    define: {[name.slice(0, 200)]: {kind: 'mix', label: {per_g: 90, carbohydrate_g: 84, sodium_mg: 300}}},
    solids: [{ingredient: name.slice(0, 200), mass_g: 60}, ...solids],
    water: {mass_g: 40},
    acid: {ingredient: 'citric acid anhydrous', mass_g: 0.4},
  };
}

export function printAll(program, source, folder) {
  mkdirSync(folder, {recursive: true});
  const run = (...args) => {
    try {
      return execFileSync(program, args, {cwd: source, maxBuffer: 1 << 28}).toString();
    } catch (error) {
      // Exit code 1 is an answer: no.
      if (error.status === 1) return error.stdout.toString();
      throw error;
    }
  };
  const pages = [];
  const page = (name, args, what = {}) => {
    const file = join(folder, name + '.html');
    writeFileSync(file, run(...args, '--format', 'html'));
    pages.push({name, file, args, ...what});
  };
  const recipes = readdirSync(join(source, 'recipes')).filter(
      (f) => f.endsWith('.json') && !f.includes('kitchen.json'));
  for (const file of recipes) {
    const name = file.replace('.json', '');
    page(name, ['sheet', 'recipes/' + file], {card: true});
    page(name + '.all', ['sheet', 'recipes/' + file, '--all']);
  }
  const thick = 'recipes/tarn-thick-pouch.json';
  const cups = 'recipes/tarn-thick-pouch.bench.csv';
  page('pictures', ['sheet', thick, '--show', 'acid_curve,texture_map,price_picture', '--cups', cups],
       {pictures: true});
  page('gum-map', ['sheet', 'recipes/gellan-xanthan-pouch.json', '--show', 'gum_map,acid_curve'],
       {pictures: true});
  page('check', ['check', ...recipes.map((f) => 'recipes/' + f)]);
  page('water', ['water', thick, '--bring-calcium-to', '40 mg/L']);
  page('dose', ['dose', thick, '--to-ph', '3.8']);
  page('ladder', ['ladder', thick, '--vary', 'acid_g=0.1:0.6:0.1']);
  page('fit', ['fit', thick, cups, '--to-ph', '3.8'], {pictures: true});
  page('spread', ['spread', 'recipes/calcium-set-pouch.json', '--draws', '2000'], {pictures: true});
  page('carry', ['carry', thick, '--hours', '3.5', '--carbohydrate-g-per-hour', '75',
                 '--bought', 'oat bar,piece_g=45,carbohydrate_g=30,sodium_mg=80'], {pictures: true});
  page('compare', ['compare', thick, 'recipes/pouch-from-scratch.json']);
  page('log', ['log', '--notebook', 'tests/data/notebook.jsonl']);
  page('score', ['log', '--score', '--notebook', 'tests/data/notebook.jsonl'], {pictures: true});
  page('shop', ['shop', thick + '=20', 'recipes/pouch-from-scratch.json']);
  page('ingredients', ['ingredients']);
  page('sources', ['sources']);
  page('words', ['words']);
  page('explain', ['explain', 'hard-water', 'recipes/mistake-hard-water-drink.json']);
  page('no-gum', ['sheet', 'tests/data/no-gum.json', '--all']);
  for (const [key, name] of Object.entries(hostile)) {
    const file = join(folder, key + '.json');
    writeFileSync(file, JSON.stringify(recipe(name, [])));
    page('hostile-' + key, ['sheet', file, '--all']);
  }
  // As many solids as the reader takes: their card goes on over several sides of paper.
  const many = recipe('A hundred lines', []);
  for (let i = 1; i < 100; ++i) {
    many.define[`sugar of sack ${i}`] = {kind: 'mix', label: {per_g: 100, carbohydrate_g: 99}};
    many.solids.push({ingredient: `sugar of sack ${i}`, mass_g: 0.5});
  }
  const file = join(folder, 'lines.json');
  writeFileSync(file, JSON.stringify(many));
  page('hostile-lines', ['sheet', file], {several: true});
  return {pages, run};
}
