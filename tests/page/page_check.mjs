// page_check.mjs PROGRAM SOURCE FOLDER
//
// Prints every report as a page, opens each from disk in Chromium, and judges it from outside:
// HTML by html-validate, accessibility by axe-core, layout and paper by the browser itself.
import {execFileSync} from 'node:child_process';
import {readFileSync} from 'node:fs';
import {createRequire} from 'node:module';
import {join} from 'node:path';
import {HtmlValidate} from 'html-validate';
import puppeteer from 'puppeteer-core';
import {printAll} from './documents.mjs';
import {drawn, layoutFaults, smallestPictureText} from './measure.mjs';
import {readBack} from './read_back.mjs';

const [program, source, folder] = process.argv.slice(2);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
let passed = 0;
const failures = [];
const judge = (what, faults) => {
  if (faults.length === 0) ++passed;
  else failures.push(...faults.map((fault) => `${what}: ${fault}`));
};

const {pages, run} = printAll(program, source, folder);

// The document itself. Text of one's own may be as long as it likes, and styles stand in the page.
const validator = new HtmlValidate({
  extends: ['html-validate:standard', 'html-validate:document'],
  rules: {'long-title': 'off', 'no-inline-style': 'off', 'no-trailing-whitespace': 'off'},
});
for (const {name, file} of pages) {
  const report = validator.validateStringSync(readFileSync(file, 'utf8'));
  judge(`${name}, HTML`, report.results.flatMap((r) => r.messages).slice(0, 5).map(
      (m) => `line ${m.line}: ${m.message} (${m.ruleId})`));
}

const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
for (const {name, file, card, several, pictures} of pages) {
  const tab = await browser.newPage();
  const noise = [];
  tab.on('console', (m) => noise.push(`console: ${m.text()}`));
  tab.on('pageerror', (e) => noise.push(`error: ${e.message}`));
  tab.on('request', (r) => { if (r.url() !== 'file://' + file) noise.push(`asks for ${r.url()}`); });
  tab.on('dialog', async (d) => { noise.push('a script ran'); await d.dismiss(); });
  const show = async (width, scheme, media) => {
    await tab.setViewport({width, height: 800});
    await tab.emulateMediaType(media);
    await tab.emulateMediaFeatures([{name: 'prefers-color-scheme', value: scheme}]);
  };
  await show(360, 'light', 'screen');
  await tab.goto('file://' + file);
  judge(`${name}, 360 px`, await tab.evaluate(layoutFaults));
  if (pictures) {
    const least = await tab.evaluate(smallestPictureText);
    judge(`${name}, text of pictures`, least >= 9 ? [] : [`${least} px at 360 px`]);
  }
  await show(768, 'light', 'screen');
  judge(`${name}, 768 px`, await tab.evaluate(layoutFaults));
  await show(718, 'light', 'print');  // A4 less its margins, 190 mm at 96 px to the inch
  judge(`${name}, paper`, await tab.evaluate(layoutFaults));
  for (const format of ['A4', 'Letter']) {
    const pdf = file.replace('.html', `.${format}.pdf`);
    await tab.pdf({path: pdf, format});
    const sides = parseInt(execFileSync('pdfinfo', [pdf]).toString().match(/Pages:\s*(\d+)/)[1]);
    const fits = card ? sides === 1 : several ? sides > 2 : sides >= 1;
    judge(`${name}, ${format}`, fits ? [] : [`${sides} sides`]);
  }
  // Rules by the law of most places; the rest of axe-core's are habits.
  await tab.evaluate(axe);
  for (const [width, scheme] of [[360, 'light'], [768, 'dark']]) {
    await show(width, scheme, 'screen');
    const found = await tab.evaluate(async () => {
      const result = await axe.run(document, {resultTypes: ['violations']});
      return result.violations.filter((v) => v.impact === 'serious' || v.impact === 'critical')
          .map((v) => `${v.id}: ${v.nodes[0].html.slice(0, 120)}`);
    });
    judge(`${name}, ${width} px ${scheme}, accessibility`, found);
  }
  judge(`${name}, quiet`, [...new Set(noise)]);
  await tab.close();
}

// Pictures against the numbers a script gets.
for (const {name, file, args, pictures} of pages) {
  if (!pictures) continue;
  const tab = await browser.newPage();
  await tab.goto('file://' + file);
  const drawings = await tab.evaluate(drawn);
  await tab.close();
  const json = JSON.parse(run(...args, '--format', 'json'));
  const series = Object.values(json).filter((v) => v && (v.bars || v.lanes || (v.x && v.y)));
  judge(`${name}, pictures`, drawings.length === series.length && series.length > 0 ?
      [] : [`${drawings.length} drawings of ${series.length} pictures`]);
  for (const picture of series) {
    const drawing = drawings.find((d) => d.title === picture.title);
    const {faults, checked} = readBack(drawing, picture);
    judge(`${name}, ${picture.title}, ${checked} places`, checked > 1 ? faults : ['nothing to check']);
  }
}
await browser.close();

failures.forEach((failure) => console.log('FAILED ' + failure));
console.log(`${passed} passed, ${failures.length} failed`);
process.exit(failures.length === 0 ? 0 : 1);
