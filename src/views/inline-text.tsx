import { onMount } from 'solid-js';

export interface InlineTextProps {
  readonly label: string;
  readonly text: string;
  readonly placeholder?: string;
  readonly class?: string;
  /** True puts the caret at the end instead of taking hold of the whole text. */
  readonly atEnd?: boolean;
  /** Takes the text over; false keeps the field open. `by` tells which key ended it, or that focus went elsewhere. */
  readonly onCommit: (text: string, by: 'enter' | 'tab' | 'blur') => boolean;
  readonly onCancel: () => void;
}

/** A line of plain text being written in place: Enter keeps it, Esc leaves it as it was. */
export function InlineText(props: InlineTextProps) {
  let field!: HTMLInputElement;
  let isOver = false;
  const commit = (by: 'enter' | 'tab' | 'blur') => {
    if (isOver) return;
    isOver = true;
    isOver = props.onCommit(field.value, by);
  };
  const hearKey = (event: KeyboardEvent) => {
    event.stopPropagation();
    if (event.key === 'Enter' || (event.key === 'Tab' && !event.shiftKey)) {
      event.preventDefault();
      commit(event.key === 'Enter' ? 'enter' : 'tab');
    } else if (event.key === 'Escape') {
      event.preventDefault();
      isOver = true;
      props.onCancel();
    }
  };
  onMount(() => {
    field.focus();
    if (props.atEnd) field.setSelectionRange(field.value.length, field.value.length);
    else field.select();
  });
  return (
    <input
      ref={field}
      class={`inline-text ${props.class ?? ''}`}
      type="text"
      autocomplete="off"
      spellcheck={false}
      aria-label={props.label}
      placeholder={props.placeholder ?? ''}
      value={props.text}
      onKeyDown={hearKey}
      onBlur={() => commit('blur')}
    />
  );
}
