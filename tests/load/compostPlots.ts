/**
 * Draws the model's courses for a person to look at: `node tests/load/compostPlots.ts <folder>` writes one SVG a
 * scenario and, where Chromium and playwright-core are there, one PNG of them all.
 */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Course, simulateCourse } from '../../shared/compost/pileModel/course.ts';
import { type Scenario, scenarios, smallHeap } from '../../shared/compost/pileModel/scenarios.ts';
import { yearlyWeather } from '../../shared/compost/pileModel/weather.ts';

const folder = process.argv[2];
if (folder === undefined) {
  console.error('Say where the plots should go: node tests/load/compostPlots.ts <folder>');
  process.exit(1);
}

const days = 120;
const [width, height, left, bottom] = [620, 300, 40, 30];
const spring = yearlyWeather({
  meanCelsius: 11,
  yearlySwingCelsius: 7,
  dailySwingCelsius: 4,
  startDayOfYear: 120,
});
const winter = yearlyWeather({
  meanCelsius: 11,
  yearlySwingCelsius: 8,
  dailySwingCelsius: 3,
  startDayOfYear: 5,
});

const x = (day: number) => left + (day / days) * (width - left - 10);
const y = (celsius: number) => height - bottom - (celsius / 100) * (height - bottom - 24);

function line(values: Float32Array, scale: number, style: string): string {
  const points = Array.from(
    values,
    (value, hour) => `${x(hour / 24).toFixed(1)},${y(value * scale).toFixed(1)}`,
  );
  return `<polyline fill="none" ${style} points="${points.filter((_, hour) => hour % 6 === 0).join(' ')}"/>`;
}

function grid(): string {
  const across = [0, 20, 40, 55, 71, 80, 100].map(
    (celsius) =>
      `<path d="M${left} ${y(celsius)}H${width - 10}" stroke="#ccc"/><text x="4" y="${y(celsius) + 4}">${celsius}</text>`,
  );
  const up = [0, 7, 14, 28, 56, 84, 112].map(
    (day) => `<text x="${x(day)}" y="${height - 10}">${day} d</text>`,
  );
  return [...across, ...up].join('');
}

/** Core, shoulder and edge in Celsius; core moisture (per cent) dashed; core oxygen x 4 (per cent) dotted. */
function plot({ name }: Scenario, { series }: Course): string {
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" font-family="sans-serif" font-size="11">` +
    `<rect width="100%" height="100%" fill="white"/><text x="${left}" y="14" font-size="13">${name}</text>${grid()}` +
    line(series.airCelsius, 1, 'stroke="#bbb"') +
    line(series.edgeCelsius, 1, 'stroke="#2a7"') +
    line(series.shoulderCelsius, 1, 'stroke="#d90"') +
    line(series.coreCelsius, 1, 'stroke="#c22" stroke-width="2"') +
    line(series.coreMoistureFraction, 100, 'stroke="#26c" stroke-dasharray="6 3"') +
    line(series.coreOxygenFraction, 400, 'stroke="#555" stroke-dasharray="1 3"') +
    '</svg>'
  );
}

async function picture(html: string, file: string): Promise<void> {
  const executablePath = '/usr/bin/chromium';
  if (!existsSync(executablePath)) return console.log('no PNG: Chromium is not installed here');
  const { chromium } = await import('playwright-core');
  const browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic'],
  });
  const page = await browser.newPage({ viewport: { width: 2 * width + 20, height: 6 * height + 40 } });
  await page.setContent(html);
  await page.screenshot({ path: file, fullPage: true });
  await browser.close();
}

mkdirSync(folder, { recursive: true });
const plots = scenarios.map((scenario) => {
  const weatherAt = scenario === smallHeap ? winter : spring;
  const { parameters, interventions } = scenario;
  const course = simulateCourse(parameters, { days, outputStepSeconds: 3600, weatherAt, interventions });
  const svg = plot(scenario, course);
  writeFileSync(join(folder, `${scenario.name.replace(/[^a-z0-9]+/gi, '-')}.svg`), svg);
  return svg;
});
await picture(`<body style="margin:0">${plots.join('')}</body>`, join(folder, 'courses.png'));
console.log(`${plots.length} courses drawn in ${folder}`);
