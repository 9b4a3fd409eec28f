export interface CarryOnPanelProps {
  /** What is taken along: "21.5 sts / 10 cm and 29.5 rows / 10 cm". */
  readonly sentence: string;
  /** "Resize a sweater". */
  readonly title: string;
  readonly onGo: () => void;
}

/** On to another notebook, with numbers taken along. */
export function CarryOnPanel(props: CarryOnPanelProps) {
  return (
    <>
      <p class="carry-on">{props.sentence}</p>
      <button type="button" class="quiet-button" onClick={() => props.onGo()}>
        {props.title} with them
      </button>
    </>
  );
}
