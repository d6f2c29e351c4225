/** The page behind a link in a message: what it is about, and three ways to answer. Plain, for any telephone. */
import { escaped } from '../core/calibration/markup.js';
import { FINDINGS } from '../core/model/inspection.js';
import type { LinkView } from './ports.js';

const STYLE =
  'body{font:18px/1.5 sans-serif;margin:16px;max-width:34em;color:#111;background:#fff}' +
  'button{font:inherit;min-height:48px;width:100%;margin:8px 0;border:2px solid #111;border-radius:8px;background:#fff;color:#111}' +
  'label{display:block;min-height:44px;padding:8px 0}input{width:24px;height:24px;vertical-align:middle}' +
  'fieldset{border:2px solid #111;border-radius:8px;margin:16px 0}';

const WORDS: Readonly<Record<(typeof FINDINGS)[number], string>> = {
  rot: 'rot',
  damp: 'damp sand',
  sprouts: 'sprouts',
  weevils: 'weevils',
  nothing: 'nothing wrong',
};

const FORM = `<form method="post">
<button name="answer" value="seen">I have seen it</button>
<fieldset><legend>I opened the bed and found</legend>
${FINDINGS.map((finding) => `<label><input type="checkbox" name="found" value="${finding}"> ${WORDS[finding]}</label>`).join('\n')}
<label><input type="checkbox" name="repacked" value="yes"> and packed it anew</label>
<button name="answer" value="found">Write it down</button></fieldset>
<button name="answer" value="quiet">Later: be quiet for 6 hours</button>
</form>`;

/** @param done whether it has just been used */
export function linkPage({ bedName, text, person, over }: LinkView, done: boolean): string {
  const used = '<p><strong>This alarm is over, or the link was used: each works once.</strong></p>';
  const rest = done ? '<p><strong>Thank you. It is written down.</strong></p>' : over ? used : FORM;
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(bedName)}</title><style>${STYLE}</style></head>
<body><main><h1>${escaped(bedName)}</h1><p>${escaped(text)}</p><p>For ${escaped(person)}.</p>
${rest}
<p>Rotten, mouldy or bitter roots: the whole root goes. Neither eat it nor feed it to animals; bury it away from the store.</p>
</main></body></html>
`;
}
