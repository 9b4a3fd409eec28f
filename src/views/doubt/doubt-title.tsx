import { useDesk } from '../desk.ts';

/** "How far off can finished chest be?", of the cell she stands at. */
export function DoubtTitle() {
  const desk = useDesk();
  const name = () => {
    const { row } = desk.stand();
    return row.startsWith('k:') ? desk.notebook.face(row.slice(2)).name : '';
  };
  return <>{name() ? `How far off can ${name()} be?` : 'How far off can it be?'}</>;
}
