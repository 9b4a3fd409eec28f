import type { Session } from '../session/index.ts';
import type { Notices } from './notices.ts';

/** Tells what was just done to an open notebook, with its undo, until something else is done or it is taken back. */
export function tellDone(notices: Notices, session: Session, key: string, sentence: string): void {
  const done = session.lastDone();
  const undo = () => {
    if (session.lastDone() === done) session.undo();
  };
  const end = session.listen(({ page }) => {
    if (!page || session.lastDone() === done) return;
    end();
    notices.drop(key);
  });
  notices.tell({
    key,
    sentence,
    ways: [...(done ? [{ label: 'Undo', choose: undo }] : []), { label: 'OK', choose: () => undefined }],
  });
}
