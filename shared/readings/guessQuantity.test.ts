import { expect, it } from 'vitest';
import { guessQuantity } from './guessQuantity.ts';

it.each([
  ['core', 'temperature'],
  ['t1', 'temperature'],
  ['battery', 'battery'],
  ['battery-volts', 'battery'],
  ['supplyVoltage', 'voltage'],
  ['moisture2', 'moisture'],
  ['air-rh', 'relative-humidity'],
  ['north', 'temperature'],
  ['rssi', 'other'],
] as const)('%s is probably %s', (name, quantity) => {
  expect(guessQuantity(name)).toBe(quantity);
});
