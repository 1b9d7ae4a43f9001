// tap.mjs TIEOVER DIR: starts `tieover tap`, taps two parts in a real browser with scatter, finds and saves them, and
// checks who is answered. Exit 0 when all holds.
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { execFileSync, spawn } from 'node:child_process';
import { chromium } from 'playwright-core';

const [tieover, dir] = process.argv.slice(2);
const wrong = [];
const check = (holds, what) => { if (!holds) wrong.push(what); };
const out = path.join(dir, 'tapped');
const server = spawn(tieover, ['tap', '-o', out], { stdio: ['ignore', 'pipe', 'pipe'] });
const address = await new Promise((found, fail) => {
  server.stdout.on('data', (d) => { const m = /http:\/\/127\.0\.0\.1:(\d+)\//.exec(d); if (m) found(m); });
  server.on('exit', () => fail(new Error('tap ended')));
});
const [url, port] = [address[0], +address[1]];

const ask = (options, body) => new Promise((done) => {
  const r = http.request({ host: '127.0.0.1', port, path: '/', ...options }, (a) => { let text = ''; a.on('data', (d) => { text += d; }); a.on('end', () => done({ code: a.statusCode, text })); });
  r.on('error', (e) => done({ code: 0, text: e.message }));
  r.end(body);
});

// A take of twelve bars of 9/8: 2+2+2+3 and 4+4+4+3 eighths, a quarter = 120, the taps scattered by so many
// milliseconds. The scatter is the same each time: a sum of twelve numbers of one simple generator, nearly normal.
function takes(scatter) {
  let x = 4711;
  const uniform = () => { x = (x * 48271) % 2147483647; return x / 2147483647; };
  const normal = () => { let s = -6; for (let i = 0; i < 12; i++) s += uniform(); return s; };
  return [[9, [0, 2, 4, 6]], [15, [0, 4, 8, 12]]].map(([cycle, onsets]) => {
    const all = [];
    for (let start = 0; start < 90; start += cycle) for (const o of onsets) all.push(Math.max(0, 0.5 + (start + o) * 0.25 + normal() * scatter / 1000));
    return all;
  });
}

const browser = await chromium.launch({ timeout: 180_000, executablePath: process.env.CHROMIUM || '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu', '--autoplay-policy=no-user-gesture-required'] });
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  page.setDefaultTimeout(120_000);
  page.on('pageerror', (e) => wrong.push(`page error: ${e.message}`));
  page.on('console', (m) => { if (m.type() === 'error') wrong.push(`console: ${m.text()}`); });
  page.on('request', (r) => { if (!r.url().startsWith(url) && !/^(data|blob):/.test(r.url())) wrong.push(`request: ${r.url()}`); });
  await page.goto(url);
  const token = await page.locator('body').getAttribute('data-token');

  // Who may send.
  const body = JSON.stringify({ parts: [{ name: 'A', taps: [0, 1, 2] }], tempo: 0, meter: '', file: '' });
  const good = { method: 'POST', path: '/find', headers: { Host: `127.0.0.1:${port}`, Origin: `http://127.0.0.1:${port}`, 'Content-Type': 'application/json', 'X-Tieover-Token': token } };
  const but = (headers, more = {}) => ({ ...good, ...more, headers: { ...good.headers, ...headers } });
  check((await ask(good, body)).code === 200, 'the page itself is refused');
  for (const [what, options, text, code] of [
    ['another origin', but({ Origin: 'http://evil.example' }), body, 403],
    ['another port', but({ Origin: `http://127.0.0.1:${port + 1}` }), body, 403],
    ['no origin', but({ Origin: '' }), body, 403],
    ['https', but({ Origin: `https://127.0.0.1:${port}` }), body, 403],
    ['a wrong token', but({ 'X-Tieover-Token': 'x'.repeat(token.length) }), body, 403],
    ['no token', but({ 'X-Tieover-Token': '' }), body, 403],
    ['a form', but({ 'Content-Type': 'text/plain' }), body, 403],
    ['another host', but({ Host: 'evil.example' }), body, 403],
    ['GET', { ...good, method: 'GET' }, undefined, 405],
    ['PUT', { ...good, method: 'PUT' }, body, 405],
    ['another path', but({}, { path: '/save/../x' }), body, 404],
    ['a query', but({}, { path: '/find?x' }), body, 404],
    ['POST on the page', but({}, { path: '/' }), body, 405],
    ['no JSON', good, 'hello', 400],
    ['unknown keys', good, '{"parts":[],"path":"/etc"}', 400],
    ['falling taps', good, '{"parts":[{"name":"A","taps":[2,1]}]}', 400],
    ['too much', good, `{"parts":[{"name":"${'A'.repeat(2 << 20)}","taps":[1]}]}`, 400],
  ]) {
    const a = await ask(options, text);
    check(a.code === code, `${what} is answered with ${a.code}, not ${code}`);
  }

  // No recording: a click; taps by key while it plays, at the moment of the press.
  await page.fill('#name0', 'Rake');
  await page.fill('#name1', 'Scythe');
  await page.locator('#name1').press('Tab');
  await page.evaluate(() => document.activeElement.blur());
  await page.keyboard.press('f');
  check((await page.locator('#said').textContent()).includes('play first'), 'a tap before playing is not explained');
  await page.keyboard.press('Space');
  await page.waitForFunction(() => document.getElementById('where').textContent > '0:00.40');
  for (let i = 0; i < 4; i++) { await page.keyboard.press('f'); await page.waitForTimeout(120); }
  await page.keyboard.press('j');
  await page.keyboard.press('Space');
  const count = (i) => page.locator(`#count${i}`).textContent();
  check(/^4 taps/.test(await count(0)) && /^1 taps/.test(await count(1)), `keys tap: ${await count(0)}; ${await count(1)}`);
  check(await page.locator('#takes .ink0 .stem').getAttribute('d').then((d) => d.split('M').length === 5), 'the taps are not drawn');
  await page.keyboard.press('Control+z');
  check(/^no taps/.test(await count(1)), 'undo does not undo');
  // choose, move, delete
  const first = () => page.locator('#taps0').inputValue().then((t) => t.split('\n').map(Number));
  const before = await first();
  await page.evaluate(() => { document.getElementById('takes').scrollLeft = 0; });
  const box = await page.locator('#takes svg').boundingBox();
  await page.mouse.click(box.x + before[0] * 70, box.y + 34 + 25);
  await page.evaluate(() => document.activeElement.blur());
  await page.keyboard.press('ArrowRight');
  check(Math.abs((await first())[0] - before[0] - 0.01) < 1e-6, 'an arrow key does not move the chosen tap');
  await page.keyboard.press('Delete');
  check((await first()).length === 3, 'Delete does not remove the chosen tap');
  await page.screenshot({ path: path.join(dir, 'tap.png') });

  // The delay is measured: taps that the page is given 60 ms after each click.
  await page.evaluate(() => {
    window.late = [];
    const start = AudioScheduledSourceNode.prototype.start;
    AudioScheduledSourceNode.prototype.start = function (at) { window.late.push([this.context, at]); return start.call(this, at); };
  });
  await page.click('#calibrate');
  await page.evaluate(() => new Promise((done) => {
    const clicks = [...window.late];
    const each = setInterval(() => {
      const c = clicks[0][0];
      while (clicks.length && c.currentTime >= clicks[0][1] + 0.06) {
        clicks.shift();
        document.dispatchEvent(new KeyboardEvent('keydown', { key: 'x', bubbles: true }));
        if (!clicks.length) { clearInterval(each); return done(); }
      }
    }, 1);
  }));
  await page.waitForFunction(() => /This is taken off|only/.test(document.getElementById('delay').textContent));
  const measured = /come (\d+) ms after/.exec(await page.locator('#delay').textContent());
  check(measured && +measured[1] >= 55 && +measured[1] <= 90, `of 60 ms late it says: ${await page.locator('#delay').textContent()}`);
  await page.click('#nodelay');

  // Scatter of 5, 15 and 25 ms gives the section back with the tempo given, and says what is not certain without.
  for (const scatter of [5, 15, 25]) {
    const parts = takes(scatter);
    for (let i = 0; i < 2; i++) {
      await page.fill(`#taps${i}`, parts[i].map((t) => t.toFixed(3)).join('\n'));
      await page.locator(`#taps${i}`).press('Tab');
    }
    await page.fill('#tempo', '120');
    await page.fill('#meter', '9/8');
    await page.click('#find');
    await page.waitForFunction(() => !document.getElementById('find').disabled);
    const found = await page.locator('#found').textContent(), spec = await page.locator('#spec').textContent();
    check(/2\+2\+2\+3/.test(found) && /4\+4\+4\+3/.test(found), `at ${scatter} ms: ${found} ${await page.locator('#told').textContent()}`);
    check(/groups: 2\+2\+2\+3/.test(spec) && /groups: 4\+4\+4\+3/.test(spec) && /name: Rake/.test(spec), `at ${scatter} ms the spec is ${spec}`);
    check((await page.locator('#chart').textContent()).includes('Scythe'), `at ${scatter} ms there is no chart`);
    await page.fill('#tempo', '');
    await page.click('#find');
    await page.waitForFunction(() => !document.getElementById('find').disabled);
    check(/estimated/.test(await page.locator('#found').textContent()), 'without a tempo it does not say that it is estimated');
  }
  // taps that are no pattern: in words, nothing lost
  await page.fill('#taps1', '1\n1.37\n3.91\n4.02\n6.6');
  await page.locator('#taps1').press('Tab');
  await page.click('#find');
  await page.waitForFunction(() => !document.getElementById('find').disabled);
  check((await page.locator('#told').textContent()).length + (await page.locator('#found').textContent()).length > 10, 'taps without a pattern are not told');
  check((await page.locator('#taps1').inputValue()).startsWith('1.000'), 'the taps are lost');
  await page.keyboard.press('Escape');
  await page.locator('#undo').click();

  // Save: taps, spec, everything; not over what is there.
  fs.mkdirSync(out, { recursive: true });
  fs.writeFileSync(path.join(out, 'rake.txt'), 'mine');
  await page.fill('#tempo', '120');
  await page.click('#save');
  await page.waitForFunction(() => !document.getElementById('save').disabled);
  check(fs.readFileSync(path.join(out, 'rake.txt'), 'utf8') === 'mine' && !fs.existsSync(path.join(out, 'section.yaml')), 'a file that was there is written over');
  check((await page.locator('#told').textContent()).includes('rake.txt'), 'what would be lost is not named');
  fs.rmSync(path.join(out, 'rake.txt'));
  let asked = 0;
  page.on('dialog', (d) => { asked++; d.accept(); });
  await page.click('#save');
  await page.waitForFunction(() => !document.getElementById('save').disabled);
  for (const f of ['rake.txt', 'scythe.txt', 'section.yaml', 'score.musicxml', 'chart.txt', 'page.html']) check(fs.existsSync(path.join(out, f)), `${f} is not saved: ${await page.locator('#told').textContent()}`);
  check(execFileSync(tieover, ['find', '--onsets', path.join(out, 'rake.txt'), '--tempo', '120']).toString().includes('2+2+2+3'), 'find does not read what was saved');
  await page.fill('#taps0', '1\n2\n3');
  await page.locator('#taps0').press('Tab');
  await page.reload();
  check(asked === 1, 'closing the page with unsaved taps does not ask');
  server.removeAllListeners('exit');
  const ended = new Promise((done) => server.on('exit', done));
  server.kill('SIGINT');
  check(await ended === 0, 'tap does not end well when it is stopped');
  page.removeAllListeners('console');
  await page.fill('#taps0', '1\n2\n3');
  await page.locator('#taps0').press('Tab');
  await page.click('#find');
  await page.waitForFunction(() => /has ended/.test(document.getElementById('told').textContent));
} finally {
  await browser.close();
  server.removeAllListeners('exit');
  server.kill('SIGINT');
}
for (const line of wrong) console.log(`tap: ${line}`);
console.log(wrong.length ? `${wrong.length} things do not hold` : 'tap: taps, finds, saves, and answers its own page only');
process.exit(wrong.length ? 1 : 0);
