import type { RowView } from '../../session/index.ts';
import { useDesk } from '../desk.ts';
import { InlineText } from '../inline-text.tsx';

/**
 * A new step of what to knit, with this cell in it. What is written takes the place of the cell's name in braces, and stays
 * to be gone on with while it is no step yet.
 */
export function StepField(props: { readonly row: RowView }) {
  const desk = useDesk();
  const start = desk.editing()?.start ?? '';
  return (
    <InlineText
      class="step-field"
      label={`a step with ${props.row.name}`}
      text={start}
      onCommit={(text, by) => {
        const isMeant = text.trim() !== '' && (by !== 'blur' || text !== start);
        if (isMeant && (by === 'blur' || !desk.heed(desk.notebook.page.addStep(text)))) return false;
        desk.leave(by !== 'blur');
        if (isMeant) desk.tell({ sentence: 'The step stands under “What to knit”.', canUndo: true });
        return true;
      }}
      onCancel={() => desk.leave()}
    />
  );
}
