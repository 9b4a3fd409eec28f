/* A picture as a stand-alone SVG text, for golden files, saving and print: the same marks as on the page. */

import type { Laid, LaidPath, LaidText } from './laid.ts';
import { layOut } from './layout.ts';
import type { Colour } from './looks.ts';
import { looks } from './looks.ts';
import type { Picture } from './picture.ts';
import { n2 } from './round.ts';

/** A colour for each of the page's colour names. */
export type Palette = Readonly<Record<Colour, string>>;

/** The page's colours by day, and by night. */
export const palettes: Readonly<Record<'light' | 'dark', Palette>> = {
  light: {
    paper: '#fcfdfb',
    card: '#ffffff',
    ink: '#12262b',
    soft: '#53666a',
    rule: '#dbe5df',
    typed: '#1550b8',
    yarn: '#bd2058',
    pick: '#daeee4',
    yes: '#1a653f',
    no: '#9c4a00',
  },
  dark: {
    paper: '#101a1c',
    card: '#182527',
    ink: '#e6eeea',
    soft: '#9fb3b0',
    rule: '#233436',
    typed: '#8ab6ff',
    yarn: '#ff7ea8',
    pick: '#183a2f',
    yes: '#7fd3a5',
    no: '#f0b070',
  },
};

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** A text as XML may hold it: control characters, which it may not, are left out. */
function xml(text: string): string {
  return [...text.replace(/[&<>"]/g, (character) => ESCAPES[character] ?? '')].filter(mayStand).join('');
}

function mayStand(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return code >= 32 && code !== 0xfffe && code !== 0xffff && (code < 0xd800 || code > 0xdfff);
}

/** A picture as SVG text for one width in pixels. The description is in it, for whoever cannot see it. */
export function toSvg(picture: Picture, widthPx: number, palette: Palette = palettes.light): string {
  const laid = layOut(picture, widthPx);
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${n2(laid.widthPx)} ${n2(laid.heightPx)}" width="${n2(laid.widthPx)}" role="img">`,
    `<title>${xml(picture.title)}</title>`,
    `<desc>${xml([...picture.describe, ...picture.leftOut].join(' '))}</desc>`,
    ...bodyOf(laid, palette),
    '</svg>',
  ].join('\n')}\n`;
}

function bodyOf(laid: Laid, palette: Palette): readonly string[] {
  return [
    ...laid.paths.map((path) => pathTag(path, palette)),
    ...laid.texts.map((text) => textTag(text, palette)),
  ];
}

function pathTag(path: LaidPath, palette: Palette): string {
  const look = looks[path.role];
  const width = path.strokeWidth ?? look.strokeWidth;
  const attributes = [
    `fill="${look.fill ? palette[look.fill] : 'none'}"`,
    look.fillOpacity === undefined ? '' : `fill-opacity="${n2(look.fillOpacity)}"`,
    look.stroke ? `stroke="${palette[look.stroke]}"` : '',
    width === undefined ? '' : `stroke-width="${n2(width)}" stroke-linecap="round" stroke-linejoin="round"`,
    look.dashes ? `stroke-dasharray="${look.dashes}"` : '',
  ];
  return `<path d="${path.d}" ${attributes.filter(Boolean).join(' ')}/>`;
}

function textTag(text: LaidText, palette: Palette): string {
  const { before, after } = text;
  const weight = text.role === 'plain' ? '' : ' font-weight="600"';
  const fill = text.role === 'plain' ? palette.soft : palette.ink;
  const open = `<text x="${n2(text.x)}" y="${n2(text.y)}" font-family="Atkinson Hyperlegible Next Variable, system-ui, sans-serif" font-size="${n2(text.sizePx)}" text-anchor="${text.anchor}" fill="${fill}">`;
  const words = (part: string) => `<tspan fill="${palette.soft}">${xml(part)}</tspan>`;
  return `${open}${before ? words(`${before} `) : ''}<tspan${weight}>${xml(text.text)}</tspan>${after ? words(` ${after}`) : ''}</text>`;
}
