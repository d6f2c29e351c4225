/**
 * The page behind a link in a message: what it told of, and three ways to answer each. In the reader's language, plain,
 * for any telephone, without scripts.
 */
import {
  CATALOGUES,
  type Catalogue,
  catalogueOf,
  findingSaid,
  LANGUAGE_CODES,
  say,
} from '../core/alarms/languages/index.js';
import { escaped } from '../core/calibration/markup.js';
import { FINDINGS } from '../core/model/inspection.js';
import type { LinkedAlarm, LinkView } from './ports.js';

const STYLE =
  'body{font:18px/1.5 sans-serif;margin:16px;max-width:34em;color:#111;background:#fff;overflow-wrap:anywhere}' +
  'button{font:inherit;min-height:48px;width:100%;margin:8px 0;border:2px solid #111;border-radius:8px;background:#fff;color:#111}' +
  'label{display:block;min-height:44px;padding:8px 0}input{width:24px;height:24px;vertical-align:middle}' +
  'fieldset,section{border:2px solid #111;border-radius:8px;margin:16px 0;padding:4px 12px;min-width:0}' +
  'summary{min-height:44px;padding:8px 0;cursor:pointer;text-decoration:underline}.draft{font-size:15px;border-left:6px solid #111;padding-left:10px}';

/** Silence that the page asks for, h. */
export const QUIET_h = 6;

/** Alarms that are shown with a form of their own: more than a storm's summary names. */
const MOST_SHOWN = 50;

const ENGLISH = CATALOGUES.en;

/** What stands above and below what the page is about. */
interface Frame {
  readonly title: string;
  /** A tag of BCP 47. */
  readonly language: string;
  readonly body: readonly string[];
}

const framed = ({ title, language, body }: Frame): string => `<!doctype html>
<html lang="${escaped(language)}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title><style>${STYLE}</style></head>
<body><main>
${body.filter((part) => part !== '').join('\n')}
</main></body></html>
`;

/** Of a draft the English stands below: of what matters to health nothing rests on words that nobody has read. */
function withEnglish(catalogue: Catalogue, key: 'page.draft' | 'page.caution', attributes = ''): string {
  const own = `<p${attributes}>${escaped(say(catalogue, key))}</p>`;
  if (catalogue.nativeReviewed) return own;
  return `${own}\n<p lang="en"${attributes}>${escaped(say(ENGLISH, key))}</p>`;
}

function checkbox(name: string, value: string, label: string): string {
  return `<label><input type="checkbox" name="${name}" value="${value}"> ${escaped(label)}</label>`;
}

const button = (value: string, label: string): string =>
  `<button name="answer" value="${value}">${escaped(label)}</button>`;

/** The three answers to one alarm. */
function form(catalogue: Catalogue, { id }: LinkedAlarm): string {
  const word = (finding: (typeof FINDINGS)[number]): string =>
    findingSaid(catalogue, finding).toLocaleLowerCase(catalogue.locale);
  return `<form method="post"><input type="hidden" name="alarm" value="${escaped(id)}">
${button('seen', say(catalogue, 'page.seen'))}
<fieldset><legend>${escaped(say(catalogue, 'page.opened'))}</legend>
${FINDINGS.map((finding) => checkbox('found', finding, word(finding))).join('\n')}
${checkbox('repacked', 'yes', say(catalogue, 'page.repacked'))}
${button('found', say(catalogue, 'page.write'))}</fieldset>
${button('quiet', say(catalogue, 'page.later', { hours: QUIET_h }))}
</form>`;
}

function alarmPart(catalogue: Catalogue, alarm: LinkedAlarm, isOnly: boolean): string {
  const told = `<p>${escaped(alarm.text)}</p>`;
  if (!alarm.open) return isOnly ? told : `<section>${told}${strong(say(catalogue, 'page.used'))}</section>`;
  if (isOnly) return `${told}\n${form(catalogue, alarm)}`;
  const one = escaped(say(catalogue, 'page.one'));
  return `<section>${told}<details><summary>${one}</summary>\n${form(catalogue, alarm)}</details></section>`;
}

const strong = (text: string): string => `<p role="status"><strong>${escaped(text)}</strong></p>`;

/** @param notice what became of the answer that was just given; absent where the page is only looked at */
export function linkPage({ title, person, language, alarms }: LinkView, notice?: string): string {
  const catalogue = catalogueOf(language);
  const open = alarms.filter((alarm) => alarm.open).length;
  const said = notice ?? (open === 0 ? say(catalogue, 'page.used') : undefined);
  const more = alarms.length - MOST_SHOWN;
  return framed({
    ...{ title, language },
    body: [
      `<h1>${escaped(title)}</h1>`,
      catalogue.nativeReviewed ? '' : withEnglish(catalogue, 'page.draft', ' class="draft"'),
      `<p>${escaped(say(catalogue, 'page.for', { name: person }))}</p>`,
      said === undefined ? '' : strong(said),
      open > 1 ? `<form method="post">${button('seen', say(catalogue, 'page.seenAll'))}</form>` : '',
      ...alarms.slice(0, MOST_SHOWN).map((alarm) => alarmPart(catalogue, alarm, alarms.length === 1)),
      more > 0 ? `<p>+${more}</p>` : '',
      withEnglish(catalogue, 'page.caution'),
    ],
  });
}

/** Of a link that is none, or none any more: whose it was is not known, so it is said in every language. */
export function noLinkPage(): string {
  const title = say(ENGLISH, 'page.expired');
  const said = LANGUAGE_CODES.map(
    (code) => `<p lang="${code}">${escaped(say(CATALOGUES[code], 'page.expired'))}</p>`,
  );
  return framed({ title, language: 'en', body: said });
}
