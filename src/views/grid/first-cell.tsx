import { createSignal, onMount } from 'solid-js';
import { type Desk, useDesk } from '../desk.ts';
import { hearHistoryKey } from '../history-key.ts';
import './first-cell.css';

/** On a blank page, the first cell: a name, then what it is. Enter goes on; nothing else needs to be known. */
export function FirstCell() {
  const desk = useDesk();
  const [name, setName] = createSignal('');
  let first!: HTMLInputElement;
  let value!: HTMLInputElement;
  let isTouched = false;
  const keep = () => {
    if (name().trim() !== '') makeFirst(desk, name().trim(), value.value.trim());
  };
  onMount(() => first.focus());
  return (
    <form
      class="first-cell"
      onSubmit={(event) => {
        event.preventDefault();
        if (document.activeElement === value || value.value !== '' || name().includes('=')) keep();
        else value.focus();
      }}
      onInput={() => {
        isTouched = true;
      }}
      onFocusOut={() => {
        isTouched = first.value !== '' || value.value !== '';
      }}
      onKeyDown={(event) => {
        // The page took her here by itself, so that undo and redo go on as if she were in the sheet until she writes.
        if (!isTouched) hearHistoryKey(event, desk.notebook);
      }}
    >
      <input
        class="inline-text first-name"
        type="text"
        ref={first}
        autocomplete="off"
        spellcheck={false}
        aria-label="the name of your first cell"
        placeholder="stitch gauge"
        value={name()}
        onInput={(event) => setName(event.currentTarget.value)}
      />
      <input
        ref={value}
        class="inline-text first-value"
        type="text"
        autocomplete="off"
        spellcheck={false}
        aria-label="its value"
        placeholder={`20 sts / ${desk.notebook.view().units === 'cm' ? '10 cm' : '4 in'}`}
      />
      <button type="submit" class="quiet-button">
        keep
      </button>
      <p class="first-help">
        Write a name and press Enter, then a number with its unit. Everything else follows from that.
      </p>
    </form>
  );
}

function makeFirst(desk: Desk, name: string, text: string): void {
  const { page } = desk.notebook;
  let section = desk.notebook.view().sections[0]?.id;
  if (section === undefined) {
    const added = page.addSection(null, '');
    if (!desk.heed(added)) return;
    section = added.id ?? '';
  }
  const outcome = page.addCell(section, null, name);
  if (!desk.heed(outcome) || outcome.id === undefined) return;
  desk.heed(page.type({ cell: outcome.id, column: null }, text)); // Typed, so that a size line makes its columns.
  desk.standAt({ row: `k:${outcome.id}`, part: 1 }, true);
}
