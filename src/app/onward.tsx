/* Beside a notebook that leads on to another: the way there, with what is carried over. */

import type { Notebook } from '../notebook/index.ts';
import type { Session } from '../session/index.ts';
import { CarryOnPanel, type NotebookSignals, type Panel } from '../views/index.ts';
import { carryOn } from './carry-on.ts';

/** The panel; undefined where a notebook leads nowhere. */
export function onwardPanel(
  session: Session,
  signals: NotebookSignals,
  beginAs: (coming: Promise<Notebook>) => void,
): Panel | undefined {
  const way = carryOn(session);
  const goOn = () => {
    const beginning = carryOn(session)?.begin();
    if (beginning) beginAs(beginning);
  };
  return (
    way && {
      id: 'onward',
      title: () => 'On to the pattern',
      tab: 'drawings',
      show: () => <CarryOnPanel title={way.title} sentence={carriedWords(signals, session)} onGo={goOn} />,
    }
  );
}

/** The gauge that is carried on. */
function carriedWords(signals: NotebookSignals, session: Session): string {
  signals.view();
  const told = (carryOn(session)?.cells ?? []).map((id) => {
    const { values } = signals.row(id);
    const [value] = values;
    return value?.kind === 'quantity' ? `${value.text} ${value.unit}` : '';
  });
  return `Your gauge goes along, with how sure it is: ${told.filter(Boolean).join(', ')}.`;
}
