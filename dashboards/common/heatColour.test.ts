import { expect, it } from 'vitest';
import { relativeLuminance } from '../../shared/units/contrast.ts';
import { heatColour } from './heatColour.ts';

const hex = (colour: string) =>
  `#${colour
    .match(/\d+/g)!
    .map((part) => Number(part).toString(16).padStart(2, '0'))
    .join('')}`;
const light = (celsius: number | null) => relativeLuminance(hex(heatColour(celsius)));

it('is darker the hotter it is, so that a grey copy keeps the order', () => {
  const lights = Array.from({ length: 70 }, (_, index) => light(20 + index));
  for (const [index, value] of lights.slice(1).entries()) expect(value).toBeLessThanOrEqual(lights[index]!);
});

it('tells in grey what matters: cool, warm, hot, over the ceiling', () => {
  const steps = [20, 45, 58, 66, 76].map(light);
  for (const [index, value] of steps.slice(1).entries())
    expect((steps[index]! + 0.05) / (value + 0.05)).toBeGreaterThan(1.1);
});

it('stays within what colours can be outside its ends, and says when nothing is known', () => {
  expect(heatColour(-40)).toBe(heatColour(0));
  expect(heatColour(300)).toBe(heatColour(90));
  expect(heatColour(null)).toMatch(/^rgb\(199 196 187\)$/);
});
