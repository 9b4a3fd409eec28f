import { useDesk } from '../desk.ts';

/** "How far off can finished chest be?", of the cell she stands at; of a choice, which is a word, without its name. */
export function DoubtTitle() {
  const desk = useDesk();
  const name = () => {
    const { row } = desk.stand();
    const face = row.startsWith('k:') ? desk.notebook.face(row.slice(2)) : undefined;
    return face && face.choices.length === 0 ? face.name : '';
  };
  return <>{name() ? `How far off can ${name()} be?` : 'How far off can it be?'}</>;
}
