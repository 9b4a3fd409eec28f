import type { JSX } from 'solid-js';

export interface PageHeadProps {
  /** The heading's id, for what it names. */
  readonly id: string;
  readonly title: string;
  readonly onClose: () => void;
  /** What the way back is called, where it is not the sheet. */
  readonly back?: string;
  readonly children?: JSX.Element;
}

/** The head of a page that stands in place of the sheet: what it is, and the way back. */
export function PageHead(props: PageHeadProps) {
  return (
    <div class="page-head">
      <h2 id={props.id}>{props.title}</h2>
      <span class="header-space" />
      {props.children}
      <button type="button" class="quiet-button" onClick={() => props.onClose()}>
        {props.back ?? 'Back to the sheet'}
      </button>
    </div>
  );
}
