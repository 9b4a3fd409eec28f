/*
 * The paper: what is printed in place of the page. It is made when the browser is about to print and gone afterwards,
 * so that it costs nothing while one works; the style sheet hides everything else. Black and white is enough for it.
 */
import './paper.css';
import { createMemo, createSignal, For, onCleanup, onMount, Show } from 'solid-js';
import { draw, layOut, type Picture } from '../../drawing/index.ts';
import type { DrawingView, PaperRow, PaperView } from '../../session/index.ts';
import { type Desk, useDesk } from '../desk.ts';
import { Drawing } from '../drawings/drawing.tsx';
import { PaperSteps } from './paper-steps.tsx';

/** How a drawing stands on paper, in CSS pixels: laid out for one width and shown at another, so that it fits. */
interface Fitted {
  readonly widthPx: number;
  readonly shownPx: number;
}

/** Widths for a drawing that stands alone, the widest first, and how high it may be then. */
const ALONE_PX: readonly number[] = [690, 520];
const ALONE_HIGH_PX = 300;
/** Its letters are not larger than those of the steps. */
const ALONE_SCALE = 0.8;
/** A row of stitches that wraps is read best when it is wide. */
const STRIP_HIGH_PX = 400;
/** One of two stands on half of an A4 or a letter page, no higher than this where its letters stay readable. */
const HALF_PX = 335;
const HALF_HIGH_PX = 350;
const LEAST_SCALE = 0.72;
/** The whole width between the margins, and the air between two drawings. */
const WHOLE_PX = 690;
const BETWEEN_PX = 14;
/** Three or more stand three to a row. */
const THIRD: Fitted = { widthPx: 300, shownPx: 222 };

/** How the drawings stand beside one another; all have letters of one size. */
function fitted(pictures: readonly Picture[]): readonly Fitted[] {
  const [first, second] = pictures;
  if (!first || pictures.length > 2) return pictures.map(() => THIRD);
  const high = first.block?.kind === 'strip' ? STRIP_HIGH_PX : ALONE_HIGH_PX;
  const alone = ALONE_PX.find((px) => layOut(first, px).heightPx <= high);
  if (!second && alone !== undefined) return [{ widthPx: alone / ALONE_SCALE, shownPx: alone }];
  const scales = pictures.map(halfScale);
  const scale = Math.min(...scales);
  const half = { widthPx: HALF_PX, shownPx: HALF_PX * scale };
  return pictures.map((picture, k) => ((scales[k] ?? 1) > scale ? roomier(picture, scale) : half));
}

/** How much a drawing on half of the page is made smaller, so that it is not too high. */
function halfScale(picture: Picture): number {
  const scale = HALF_HIGH_PX / Math.max(1, layOut(picture, HALF_PX).heightPx);
  return Math.min(1, Math.max(LEAST_SCALE, scale));
}

/** The drawing beside a high one takes the room that is left, unless it would be too high itself. */
function roomier(picture: Picture, scale: number): Fitted {
  const shownPx = WHOLE_PX - BETWEEN_PX - HALF_PX * scale;
  const widthPx = shownPx / scale;
  const fits = layOut(picture, widthPx).heightPx * scale <= HALF_HIGH_PX;
  return fits ? { widthPx, shownPx } : { widthPx: HALF_PX, shownPx: HALF_PX * scale };
}

/** Stands ready to be printed. */
export function Paper() {
  const desk = useDesk();
  const [paper, setPaper] = createSignal<PaperView>();
  onMount(() => {
    const make = () => void setPaper(paperOf(desk));
    const drop = () => void setPaper(undefined);
    addEventListener('beforeprint', make);
    addEventListener('afterprint', drop);
    onCleanup(() => {
      removeEventListener('beforeprint', make);
      removeEventListener('afterprint', drop);
    });
  });
  return <Show when={paper()}>{(one) => <Sheet paper={one()} />}</Show>;
}

/** What is printed as things stand: what was asked for beside Print or with the steps; else all of one plan. */
function paperOf({ notebook: { page }, asTried, allSizes, printsAll }: Desk): PaperView {
  const trial = asTried();
  const paper = page.paper({ trial, allSizes: printsAll ?? allSizes() });
  return paper.isOnePlan && printsAll === undefined ? page.paper({ trial, allSizes: true }) : paper;
}

function Sheet(props: { readonly paper: PaperView }) {
  const paper = () => props.paper;
  return (
    <article class="paper">
      <header>
        <h1>{paper().title}</h1>
        <Show when={paper().size}>
          <p class="paper-size">{paper().size}</p>
        </Show>
      </header>
      <Show when={paper().tried}>
        <p>As tried, not kept: {paper().tried}</p>
      </Show>
      <Show when={paper().about}>
        <p>{paper().about}</p>
      </Show>
      <Show when={paper().gauge.length > 0}>
        <section class="paper-gauge">
          <h2>Gauge</h2>
          <Rows rows={paper().gauge} withNotes />
        </section>
      </Show>
      <Drawings drawings={paper().drawings} />
      <section class="paper-measures">
        <h2>
          Measurements and counts{' '}
          <small>underlined: typed in{paper().leavesOut ? '; sums on the way are left out' : ''}</small>
        </h2>
        <div class="paper-columns">
          <For each={paper().sections}>
            {(section) => (
              <section>
                <Show when={section.title}>
                  <h3>{section.title}</h3>
                </Show>
                <Rows rows={section.rows} withNotes={paper().withNotes} />
              </section>
            )}
          </For>
        </div>
      </section>
      <Show when={paper().steps.steps.some((step) => step.applies)}>
        <PaperSteps steps={paper().steps} shapings={paper().shapings} />
      </Show>
      <Sentences title="To look at again" sentences={paper().findings} />
      <Sentences title="Take care" sentences={paper().cautions} />
      <Sentences title="Notes" sentences={paper().notes} />
    </article>
  );
}

/** So many characters of a value stand in one line. */
const LONG = 28;

/** Rows of a table: name and value; a typed value is underlined, so that it is told apart without colour. */
function Rows(props: { readonly rows: readonly PaperRow[]; readonly withNotes?: boolean }) {
  return (
    <table>
      <tbody>
        <For each={props.rows}>
          {(row) => (
            <tr>
              <th scope="row">
                {row.name}
                <Show when={props.withNotes && row.note}>
                  <small> {row.note}</small>
                </Show>
              </th>
              <td classList={{ typed: row.typed, long: row.value.length > LONG }}>{row.value}</td>
            </tr>
          )}
        </For>
      </tbody>
    </table>
  );
}

/** The drawings that have something to show, side by side. */
function Drawings(props: { readonly drawings: readonly DrawingView[] }) {
  const drawn = createMemo(() => {
    const pictures = props.drawings
      .map((drawing) => ({ title: drawing.title, picture: draw(drawing.kind, drawing.parts) }))
      .filter(({ picture }) => picture.block !== undefined);
    const places = fitted(pictures.map(({ picture }) => picture));
    return pictures.map((one, k) => ({ ...one, ...(places[k] ?? THIRD) }));
  });
  return (
    <Show when={drawn().length > 0}>
      <div class="paper-drawings">
        <For each={drawn()}>
          {({ title, picture, widthPx, shownPx }) => (
            <section style={{ width: `${shownPx}px` }}>
              <h2>{title || picture.title}</h2>
              <Drawing picture={picture} widthPx={widthPx} />
            </section>
          )}
        </For>
      </div>
    </Show>
  );
}

function Sentences(props: { readonly title: string; readonly sentences: readonly string[] }) {
  return (
    <Show when={props.sentences.length > 0}>
      <section class="paper-sentences">
        <h2>{props.title}</h2>
        <For each={props.sentences}>{(sentence) => <p>{sentence}</p>}</For>
      </section>
    </Show>
  );
}
