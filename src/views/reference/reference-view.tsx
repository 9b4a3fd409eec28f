/* Units, functions and keys: a page drawn from the records that formulas are read with. */

import './reference.css';
import { For, Show } from 'solid-js';
import { type FunctionReference, reference } from '../../session/index.ts';
import { sheetKeys } from './sheet-keys.ts';

export interface ReferenceViewProps {
  readonly onClose: () => void;
}

function Functions(props: { readonly title: string; readonly list: readonly FunctionReference[] }) {
  return (
    <>
      <h3>{props.title}</h3>
      <dl>
        <For each={props.list}>
          {(one) => (
            <div class="entry">
              <dt>{one.signature}</dt>
              <dd>{one.help}</dd>
              <Show when={one.parameters.length > 0}>
                <dd>
                  <ul>
                    <For each={one.parameters}>
                      {(parameter) => (
                        <li>
                          {parameter.name}: {parameter.help}
                          {parameter.optional ? ' (may be left out)' : ''}
                        </li>
                      )}
                    </For>
                  </ul>
                </dd>
              </Show>
              <For each={one.examples.slice(0, 2)}>
                {(example) => (
                  <dd class="soft">
                    {example.text} gives {example.gives}
                  </dd>
                )}
              </For>
            </div>
          )}
        </For>
      </dl>
    </>
  );
}

function Pairs(props: { readonly title: string; readonly list: readonly (readonly [string, string])[] }) {
  return (
    <>
      <h3>{props.title}</h3>
      <dl>
        <For each={props.list}>
          {([what, means]) => (
            <div class="entry">
              <dt>{what}</dt>
              <dd>{means}</dd>
            </div>
          )}
        </For>
      </dl>
    </>
  );
}

/** Every unit, function, sign and key. */
export function ReferenceView(props: ReferenceViewProps) {
  const all = reference();
  return (
    <section class="reference" aria-labelledby="reference-title">
      <div class="file-head">
        <h2 id="reference-title">Units, functions, keys</h2>
        <span class="header-space" />
        <button type="button" class="quiet-button" onClick={props.onClose}>
          Back to the sheet
        </button>
      </div>
      <Pairs title="How things are written" list={all.signs} />
      <h3>Units</h3>
      <dl>
        <For each={all.units}>
          {(unit) => (
            <div class="entry">
              <dt>{unit.symbol}</dt>
              <dd>
                {unit.help}
                <Show when={unit.also.length > 0}>
                  <span class="soft"> also written {unit.also.join(', ')}</span>
                </Show>
              </dd>
            </div>
          )}
        </For>
      </dl>
      <Functions title="Counting and plain sums" list={all.counting} />
      <Functions title="Across the columns" list={all.columns} />
      <Functions title="Plans" list={all.plans} />
      <Pairs title="Keys in the sheet" list={sheetKeys} />
    </section>
  );
}
