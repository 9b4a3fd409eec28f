/*
 * What measures inside the page: it presses the nudge, and beside the app puts a bare page of as many rows and columns,
 * which sets as many texts.
 */

/** What the page is asked for; it lives in the document under measure. */
export interface Probe {
  /** Milliseconds from the start of a frame to the end of the frame that shows the nudge; by 0 nothing is nudged. */
  nudge(by: number): Promise<number>;
  /** Nudges, and waits for nothing. */
  press(by: number): void;
  /** The same for as many texts of the bare page. */
  bare(turn: number): Promise<number>;
  showBare(isShown: boolean): void;
  /** Sets as many texts of the bare page as a nudge changes; others at another turn. */
  write(turn: number): void;
  /** Nudges and counts the texts that change, those out of sight too. */
  settle(): Promise<void>;
  texts: number;
}

/** Runs in the page: puts the bare page beside the app, and the means to measure both. */
export function setUp({ rows, columns, id }: { rows: number; columns: number; id: string }): void {
  const frame = () =>
    new Promise<number>((done) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => done(performance.now());
      requestAnimationFrame(() => channel.port2.postMessage(0));
    });
  const rest = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));
  const bare = document.createElement('div');
  bare.style.cssText = 'position:fixed;inset:0;overflow:auto;background:white;z-index:99;display:none';
  const nodes: Text[] = [];
  for (let i = 0; i < rows; i += 1) {
    const row = document.createElement('div');
    row.style.cssText = 'display:flex;height:33px;content-visibility:auto;contain-intrinsic-size:auto 33px';
    for (let k = 0; k <= columns; k += 1) {
      const cell = document.createElement('span');
      cell.style.cssText = 'flex:1';
      const text = document.createTextNode(k === 0 ? `row ${i}` : '0');
      if (k > 0) nodes.push(text);
      cell.append(text);
      row.append(cell);
    }
    bare.append(row);
  }
  document.body.append(bare);
  const place = document.querySelector<HTMLElement>(`[data-row="k:${id}"] [data-part="1"]`);
  const press = (by: number) =>
    place?.dispatchEvent(
      new KeyboardEvent('keydown', { key: by > 0 ? '+' : '-', bubbles: true, cancelable: true }),
    );
  const timed = async (deed: () => void) => {
    await frame();
    const start = performance.now();
    deed();
    return (await frame()) - start;
  };
  const probe = {
    texts: 0,
    press,
    settle: async () => {
      place?.focus();
      let changed = 0;
      const watcher = new MutationObserver((list) => {
        for (const { type } of list) if (type === 'characterData') changed += 1;
      });
      press(1);
      await rest(1500);
      watcher.observe(document.getElementById('sheet') ?? document.body, {
        characterData: true,
        subtree: true,
      });
      press(1);
      await rest(1500);
      watcher.disconnect();
      probe.texts = Math.min(changed, nodes.length);
    },
    nudge: async (by: number) => {
      bare.style.display = 'none';
      await rest(80);
      return timed(() => void (by !== 0 && press(by)));
    },
    showBare: (isShown: boolean) => {
      bare.style.display = isShown ? 'block' : 'none';
    },
    write: (turn: number) => {
      const every = nodes.length / Math.max(1, probe.texts);
      for (let i = 0; i < probe.texts; i += 1) {
        const node = nodes[Math.floor(i * every)];
        if (node) node.data = String(turn * 7 + i);
      }
    },
    bare: async (turn: number) => {
      probe.showBare(true);
      await rest(80);
      const time = await timed(() => probe.write(turn));
      probe.showBare(false);
      return time;
    },
  };
  Object.assign(globalThis, { probe });
}
