import { PNG } from 'pngjs';
import { expect, test } from 'vitest';
import { differenceOf } from './picture.ts';

/** A white picture with so many black pixels at its start. */
function picture(width: number, height: number, black: number): Buffer {
  const png = new PNG({ width, height });
  png.data.fill(255);
  for (let pixel = 0; pixel < black; pixel += 1) png.data.fill(0, pixel * 4, pixel * 4 + 3);
  return PNG.sync.write(png);
}

test('alike pictures, and pictures with a pixel or two astray, pass', () => {
  expect(differenceOf(picture(100, 100, 40), picture(100, 100, 40), false).sentence).toBeUndefined();
  expect(differenceOf(picture(100, 100, 0), picture(100, 100, 5), false).sentence).toBeUndefined();
});

test('a difference the size of a letter is found and shown', () => {
  const { sentence, picture: shown } = differenceOf(picture(100, 100, 0), picture(100, 100, 60), false);
  expect(sentence).toBe('60 pixels differ');
  expect(PNG.sync.read(shown ?? Buffer.alloc(0)).width).toBe(100);
});

test('another size is found, also where only sizes count', () => {
  expect(differenceOf(picture(100, 100, 0), picture(100, 90, 0), true).sentence).toBe(
    'was 100 × 100 pixels, is 100 × 90',
  );
  expect(differenceOf(picture(100, 100, 0), picture(100, 100, 60), true).sentence).toBeUndefined();
});
