import { Show } from 'solid-js';
import { columnTitle } from '../../session/index.ts';
import { useDesk } from '../desk.ts';

/** "What to knit, size S": the size as kept, or that of the change being tried where the steps are shown with it. */
export function StepsTitle() {
  const desk = useDesk();
  const label = () => {
    const { columns, trial } = desk.notebook.view();
    const tried = columns.find((column) => column.chosen)?.label ?? '';
    return trial && !desk.asTried() ? trial.chosen : tried;
  };
  return (
    <>
      What to knit
      <Show when={label()}>, {columnTitle(desk.notebook.view().heading, label())}</Show>
    </>
  );
}
