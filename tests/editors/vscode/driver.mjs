// A browser without a screen that shows a workbench. It takes one request a line on standard input,
// {"do": NAME, …}, and answers each with a line: {"told": …} or {"problem": …}.
// usage: node driver.mjs DRIVER_FOLDER CHROMIUM PROFILE_FOLDER
import { createRequire } from 'node:module';
import path from 'node:path';
import readline from 'node:readline';

const [driver, executablePath, profile] = process.argv.slice(2);
const { chromium } = createRequire(path.join(driver, 'package.json'))('playwright-core');

const TIME = /^\s*\+?\d+:\d\d$/;
const COVERS = '.suggest-widget.visible, .parameter-hints-widget.visible, .monaco-hover:not(.hidden), .unicode-highlight, .wordHighlightText, .sticky-line-content';
const NEVER_OUTSIDE = '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1';

const context = await chromium.launchPersistentContext(profile, {
  executablePath,
  headless: true,
  viewport: { width: 1120, height: 720 },
  env: { ...process.env, XDG_CONFIG_HOME: profile, XDG_CACHE_HOME: profile },
  args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-sync', NEVER_OUTSIDE],
});
const page = context.pages()[0] ?? (await context.newPage());
page.setDefaultTimeout(60_000);

const outside = new Set();
page.on('request', (request) => {
  const { protocol, host, hostname } = new URL(request.url());
  if (/^(https?|wss?):$/.test(protocol) && hostname !== '127.0.0.1') {
    outside.add(host);
  }
});

// runs in the page from its first moment, so that what comes before any question is seen too
await page.addInitScript((time) => {
  const isTime = new RegExp(time);
  const seen = { firstHint: null };
  globalThis.seen = seen;
  const look = () => {
    for (const line of document.querySelectorAll('.editor-instance .view-line')) {
      for (const span of line.querySelectorAll('span > span')) {
        if (isTime.test(span.textContent.replaceAll('\u00a0', ' ').replaceAll('\u200b', ''))) {
          seen.firstHint ??= Date.now();
          return;
        }
      }
    }
  };
  const start = () => {
    new MutationObserver(() => seen.firstHint === null && look()).observe(document, {
      childList: true,
      subtree: true,
      characterData: true,
    });
  };
  document.documentElement ? start() : addEventListener('DOMContentLoaded', start);
}, TIME.source);

/** The lines on the screen from the top, each with its text and the hint that stands in it. */
const readLines = () =>
  page.evaluate((time) => {
    const isTime = new RegExp(time);
    const plain = (text) => text.replaceAll('\u00a0', ' ').replaceAll(/[\u200a\u200b]/g, '');
    const rows = [...document.querySelectorAll('.editor-instance .view-lines .view-line')];
    return rows
      .map((row) => ({ row, top: parseFloat(row.style.top) }))
      .sort((one, other) => one.top - other.top)
      .map(({ row, top }) => {
        const spans = [...row.querySelectorAll('span > span')];
        const hint = spans.find((span) => isTime.test(plain(span.textContent)));
        const box = hint?.getBoundingClientRect();
        const text = spans.filter((span) => span !== hint).map((span) => plain(span.textContent));
        return {
          text: text.join(''),
          hint: hint ? plain(hint.textContent).trim() : null,
          top,
          left: box?.left ?? null,
        };
      });
  }, TIME.source);

/** Type into the list that `keys` opens at the top, and take what it then offers first. */
async function takeFirst(keys, text) {
  const list = page.locator('.quick-input-widget');
  await page.keyboard.press(keys);
  await list.locator('input[type=text]').first().fill(text);
  await list.locator('.monaco-list-row').first().waitFor();
  await page.keyboard.press('Enter');
  await list.waitFor({ state: 'hidden' });
}

const shownActions = '.action-widget .monaco-list-row.action';

const requests = {
  async open({ url }) {
    await page.goto(url);
    await page.locator('.monaco-workbench .editor-instance .view-line').first().waitFor();
    await page.keyboard.press('Control+b'); // without the list of files
  },
  /** The window as it stands before a writer opens a script: the list of files is drawn. */
  async openFolder({ url }) {
    await page.goto(url);
    await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor();
  },
  async openFile({ name }) {
    await page.locator('.explorer-folders-view .monaco-list-row', { hasText: name }).first().dblclick();
    await page.locator('.monaco-workbench .editor-instance .view-line').first().waitFor();
  },
  lines: readLines,
  firstHint: () => page.evaluate(() => globalThis.seen.firstHint),
  lenses: () => page.locator('.codelens-decoration').allInnerTexts(),
  squiggles: () => page.locator('.squiggly-warning, .squiggly-error').count(),
  status: () => page.locator('.statusbar-item[id^="saywright"]').allInnerTexts(),
  notices: () => page.locator('.notification-list-item').allInnerTexts(),
  outside: () => [...outside],
  async place({ line, column }) {
    await takeFirst('Control+g', `:${line}:${column}`);
  },
  async command({ title }) {
    await takeFirst('F1', `>${title}`);
  },
  async type({ text, delay }) {
    await page.keyboard.type(text, { delay });
  },
  async press({ keys }) {
    await page.keyboard.press(keys);
  },
  /** The menu of what can be done at the cursor. */
  async actions() {
    // on a busy machine the key can come before the editor has its actions; a hand presses again
    for (let tries = 3; ; tries -= 1) {
      await page.keyboard.press('Control+.');
      try {
        await page.locator(shownActions).first().waitFor({ timeout: 20_000 });
        break;
      } catch (error) {
        if (tries === 1) throw error;
        await page.keyboard.press('Escape');
      }
    }
    return page.locator(shownActions).allInnerTexts();
  },
  /** Choose from that menu, as a hand with a mouse does. */
  async choose({ title }) {
    const row = page.locator(shownActions, { hasText: title }).first();
    const { x, y, width, height } = await row.boundingBox();
    // a cover over the menu goes with the pointer's first move
    await page.mouse.move(x + width / 3, y + height / 2);
    await page.mouse.move(x + width / 2, y + height / 2, { steps: 3 });
    await page.locator('.context-view-pointerBlock').waitFor({ state: 'detached' });
    await row.click();
  },
  async click({ selector, text }) {
    await page.locator(selector, text ? { hasText: text } : {}).first().click();
  },
  async texts({ selector }) {
    return page.locator(selector).allInnerTexts();
  },
  /** The colours of words, each told with how its line begins; as #aa0001. */
  colours: ({ words }) =>
    page.evaluate((words) => {
      const plain = (text) => text.replaceAll('\u00a0', ' ').replaceAll('\u200b', '');
      const lines = [...document.querySelectorAll('.editor-instance .view-lines .view-line')];
      return words.map(([start, word]) => {
        const line = lines.find((each) => plain(each.textContent).startsWith(start));
        const runs = [...(line?.querySelectorAll('span > span') ?? [])];
        const run = runs.find((each) => plain(each.textContent).includes(word));
        const parts = run ? getComputedStyle(run).color.match(/\d+/g) : [];
        return `#${parts.map((part) => Number(part).toString(16).padStart(2, '0')).join('')}`;
      });
    }, words),
  /** From now on, look at each frame whether a hint moves or goes, of a line other than `typed`,
   * whether one of any line is cut short, and whether anything lies over the words. */
  async watch({ typed }) {
    await page.evaluate(([time, typed, covers]) => {
      const isTime = new RegExp(time);
      const cut = new Set();
      const plain = (text) => text.replaceAll('\u00a0', ' ').replaceAll('\u200b', '');
      const look = () => {
        const places = new Map();
        for (const row of document.querySelectorAll('.editor-instance .view-lines .view-line')) {
          const spans = [...row.querySelectorAll('span > span')];
          const hint = spans.find((span) => isTime.test(plain(span.textContent)));
          const text = spans.filter((span) => span !== hint).map((span) => plain(span.textContent));
          const box = hint?.getBoundingClientRect();
          spans.map((span) => plain(span.textContent).trim()).filter((each) => /^[+:\d]*…$/.test(each)).forEach((each) => cut.add(each));
          places.set(text.join('').trim(), box ? `${Math.round(box.left)}, ${Math.round(box.top)}` : null);
        }
        return places;
      };
      const watched = { first: look(), moved: new Set(), covered: new Set(), cut, frames: 0, going: true };
      globalThis.watched = watched;
      const frame = () => {
        const now = look();
        watched.frames += 1;
        for (const [text, place] of watched.first) {
          if (place !== null && text !== typed && now.has(text) && now.get(text) !== place) {
            watched.moved.add(`${text}: ${place} to ${now.get(text)}`);
          }
        }
        for (const over of document.querySelectorAll(covers)) {
          watched.covered.add(over.className);
        }
        if (watched.going) {
          requestAnimationFrame(frame);
        }
      };
      requestAnimationFrame(frame);
    }, [TIME.source, typed, COVERS]);
  },
  watched: () =>
    page.evaluate(() => {
      globalThis.watched.going = false;
      const { frames, moved, covered, cut } = globalThis.watched;
      return { frames, moved: [...moved], covered: [...covered], cut: [...cut] };
    }),
  async picture({ path: file, clip }) {
    await page.screenshot({ path: file, ...(clip ? { clip } : {}) });
  },
};

for await (const line of readline.createInterface({ input: process.stdin })) {
  const { do: name, ...told } = JSON.parse(line);
  try {
    const answer = await requests[name](told);
    process.stdout.write(`${JSON.stringify({ told: answer ?? null })}\n`);
  } catch (problem) {
    process.stdout.write(`${JSON.stringify({ problem: String(problem.message ?? problem) })}\n`);
  }
}
await context.close();
