import { type Accessor, createMemo, For, type JSX } from 'solid-js';

export interface KeyedProps<T> {
  readonly each: readonly T[];
  readonly key: (one: T) => string;
  readonly children: (one: Accessor<T>) => JSX.Element;
}

/**
 * A list whose lines are known by a key: a line keeps its place on the page, the keyboard and what is being written in it
 * while what it says changes. Keys must differ.
 */
export function Keyed<T>(props: KeyedProps<T>) {
  const byKey = createMemo(() => new Map(props.each.map((one) => [props.key(one), one])));
  const keys = createMemo(() => [...byKey().keys()]);
  return (
    <For each={keys()}>
      {(key) => {
        let last = byKey().get(key) as T;
        const one = createMemo(() => {
          last = byKey().get(key) ?? last; // A line on its way out says what it said.
          return last;
        });
        return props.children(one);
      }}
    </For>
  );
}
