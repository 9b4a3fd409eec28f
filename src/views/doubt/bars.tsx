/*
 * The bars: each a band of knitting that stretches from the least to the most, a pin through it where the value stands.
 * Bands keep their place as they change, so that one sees them stretch. They are for the eye; the words say the same.
 */
import { createMemo, Index, Show } from 'solid-js';
import type { AllView, BarView, DoubtView, Place } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { Tolerance } from './tolerance.tsx';

/** So many bars are drawn, and so many lines say "nothing". */
const MOST_BARS = 6;
const MOST_NOTHING = 3;

/** A bar for each uncertain value, the largest first, and one for all of them together. */
export function Bars(props: { readonly doubt: DoubtView }) {
  const moving = createMemo(() => props.doubt.bars.filter((bar) => !bar.nothing));
  const still = createMemo(() => props.doubt.bars.filter((bar) => bar.nothing));
  return (
    <Show when={props.doubt.bars.length > 0}>
      <ul class="bars">
        <Index each={moving().slice(0, MOST_BARS)}>
          {(bar) => (
            <li>
              <BarWords bar={bar()} />
              <Band from={bar().from} to={bar().to} />
            </li>
          )}
        </Index>
        <Show when={moving().length > MOST_BARS}>
          <li class="bar-more">{moving().length - MOST_BARS} more do less</li>
        </Show>
        <Show when={props.doubt.all}>
          {(all) => (
            <li class="bar-all">
              <p class="bar-words">
                <span>all of them, at worst</span>
                <span class="bar-text">{all().text}</span>
              </p>
              <AllBand all={all()} />
            </li>
          )}
        </Show>
        <Index each={still().slice(0, MOST_NOTHING)}>
          {(bar) => (
            <li class="bar-nothing">
              <BarWords bar={bar()} />
            </li>
          )}
        </Index>
        <Show when={still().length > MOST_NOTHING}>
          <li class="bar-more">{still().length - MOST_NOTHING} more do nothing</li>
        </Show>
      </ul>
    </Show>
  );
}

function BarWords(props: { readonly bar: BarView }) {
  return (
    <p class="bar-words">
      <span class="bar-name">
        <GoTo place={props.bar.place} name={props.bar.name} />
        <Tolerance
          place={props.bar.place}
          name={props.bar.name}
          off={props.bar.off}
          tolerance={props.bar.tolerance}
          unit={props.bar.unit}
        />
      </span>
      <span class="bar-text">{props.bar.text}</span>
    </p>
  );
}

/** A cell's name that leads to it. */
export function GoTo(props: { readonly place: Place; readonly name: string }) {
  const desk = useDesk();
  const go = () => {
    const column = desk.notebook.view().columns.findIndex(({ id }) => id === props.place.column);
    desk.standAt({ row: `k:${props.place.cell}`, part: column + 1 || 1 }, true);
  };
  return (
    <button type="button" class="link go-to" onClick={go}>
      {props.name}
    </button>
  );
}

const percent = (share: number) => `${(share * 100).toFixed(2)}%`;

function Band(props: { readonly from: number; readonly to: number }) {
  return (
    <div class="band-track" aria-hidden="true">
      <span class="band" style={{ left: percent(props.from), width: percent(props.to - props.from) }} />
      <span class="band-pin" />
    </div>
  );
}

/** A thread as far as the worst case goes, and on it a band as far as it usually goes. */
function AllBand(props: { readonly all: AllView }) {
  const all = () => props.all;
  return (
    <div class="band-track" aria-hidden="true">
      <span class="thread" style={{ left: percent(all().from), width: percent(all().to - all().from) }} />
      <span
        class="band"
        style={{ left: percent(all().usualFrom), width: percent(all().usualTo - all().usualFrom) }}
      />
      <span class="band-pin" />
    </div>
  );
}
