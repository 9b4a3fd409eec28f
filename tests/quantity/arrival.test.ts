// A part of the program that comes later: fetched once, tried again after a failure, and those who wait are called once.
import { expect, test } from 'vitest';
import { createArrival } from '../../src/quantity/index.ts';

test('it is fetched once, and those who wait are called once', async () => {
  let loads = 0;
  let calls = 0;
  const part = createArrival(() => {
    loads += 1;
    return Promise.resolve('here');
  });
  part.when(() => {
    calls += 1;
  });
  expect(part.here()).toBeUndefined();
  await Promise.all([part.fetch(), part.fetch()]);
  expect(part.here()).toBe('here');
  part.when(() => {
    calls += 1;
  });
  await part.fetch();
  expect([loads, calls]).toEqual([1, 1]);
});

test('after a failure the next asking tries again', async () => {
  let loads = 0;
  const part = createArrival(() => {
    loads += 1;
    return loads === 1 ? Promise.reject(new Error('no network')) : Promise.resolve(loads);
  });
  await expect(part.fetch()).rejects.toThrow('no network');
  expect(part.here()).toBeUndefined();
  await part.fetch();
  expect(part.here()).toBe(2);
});
