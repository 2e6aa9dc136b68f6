// Lets the tests drive a browser: one request a line on stdin, one answer a line on stdout, both JSON.
// Arguments: the folder of the npm packages, the browser's program.
import { createRequire } from "node:module";
import { createInterface } from "node:readline";

const [modules, program] = process.argv.slice(2);
const { chromium } = createRequire(`${modules}/`)("playwright-core");

const QUIET = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
// playwright-core gives every launch a new, empty --user-data-dir.
const browser = await chromium.launch({ executablePath: program, headless: true, args: QUIET });
const pages = new Map();

async function open({ address, width, height, scheme, scripts }) {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: scheme,
    javaScriptEnabled: scripts,
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  const seen = { context, page, requests: [], trouble: [] };
  context.on("request", (request) => seen.requests.push(request.url()));
  page.on("console", (line) => {
    if (["error", "warning", "assert"].includes(line.type())) seen.trouble.push(line.text());
  });
  page.on("pageerror", (error) => seen.trouble.push(String(error)));
  page.on("crash", () => seen.trouble.push("the page crashed"));
  // What a page asks for beside itself is noted above and never leaves the machine.
  await context.route(/^(?!file:|data:)/, (route) => route.abort());
  await page.goto(address, { waitUntil: "load" });
  const number = pages.size + 1;
  pages.set(number, seen);
  return number;
}

const actions = {
  version: () => browser.version(),
  open,
  evaluate: ({ page, code }) => pages.get(page).page.evaluate(code),
  seen: ({ page }) => ({ requests: pages.get(page).requests, trouble: pages.get(page).trouble }),
  press: ({ page, key }) => pages.get(page).page.keyboard.press(key),
  click: ({ page, what }) => pages.get(page).page.click(what),
  hover: ({ page, what }) => pages.get(page).page.hover(what),
  fill: ({ page, what, text }) => pages.get(page).page.fill(what, text),
  choose: ({ page, what, value }) => pages.get(page).page.selectOption(what, value),
  media: ({ page, media }) => pages.get(page).page.emulateMedia({ media }),
  picture: async ({ page, to }) => {
    await pages.get(page).page.screenshot({ path: to, fullPage: true });
  },
  picture_here: async ({ page, to }) => {
    await pages.get(page).page.screenshot({ path: to });
  },
  pdf: async ({ page, format, to }) => {
    await pages.get(page).page.pdf({ path: to, format, printBackground: true });
  },
  close: ({ page }) => pages.get(page).context.close(),
};

for await (const line of createInterface({ input: process.stdin })) {
  const { action, ...rest } = JSON.parse(line);
  let answer;
  try {
    answer = { value: (await actions[action](rest)) ?? null };
  } catch (error) {
    answer = { error: String(error) };
  }
  process.stdout.write(`${JSON.stringify(answer)}\n`);
}
await browser.close();
