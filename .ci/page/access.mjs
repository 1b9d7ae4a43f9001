// access.mjs TIEOVER PAGE…: holds pages, and the one that `tieover tap` serves, to an accessibility checker (npm
// axe-core), narrow and wide, light and dark. Exit 0 when it finds nothing.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const [tieover, ...files] = process.argv.slice(2);
const checker = fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const server = spawn(tieover, ['tap', '-o', path.join(os.tmpdir(), 'tieover-nothing')], { stdio: ['ignore', 'pipe', 'inherit'] });
const served = await new Promise((found) => server.stdout.on('data', (d) => { const m = /http:\S+/.exec(d); if (m) found(m[0]); }));
const browser = await chromium.launch({ timeout: 180_000, executablePath: process.env.CHROMIUM || '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
let found = 0;
try {
  for (const url of [served, ...files.map((f) => pathToFileURL(path.resolve(f)).href)]) {
    for (const width of [390, 1440]) {
      for (const colorScheme of ['light', 'dark']) {
        const page = await (await browser.newContext({ viewport: { width, height: 900 }, colorScheme, bypassCSP: true })).newPage();
        page.setDefaultTimeout(120_000);
        await page.goto(url);
        await page.evaluate(checker);
        for (const v of (await page.evaluate(() => axe.run())).violations) {
          found++;
          console.log(`${url} at ${width} px, ${colorScheme}: ${v.help}: ${v.nodes[0].html.slice(0, 160)}`);
        }
        await page.context().close();
      }
    }
  }
} finally {
  await browser.close();
  server.kill('SIGINT');
}
console.log(found ? `${found} findings` : 'nothing found by the accessibility checker');
process.exit(found ? 1 : 0);
