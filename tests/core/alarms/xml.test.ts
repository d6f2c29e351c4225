import { expect, test } from 'vitest';
import { escapeXml, xmlDocument, xmlText } from '../../../services/core/alarms/xml.js';

test('elements nest, one a line, the namespace at the root', () => {
  const text = xmlDocument(
    [
      'a',
      [
        ['b', 'x'],
        ['c', [['d', '']]],
      ],
    ],
    'urn:x',
  );
  expect(text).toBe(
    '<?xml version="1.0" encoding="UTF-8"?>\n<a xmlns="urn:x">\n  <b>x</b>\n  <c>\n    <d></d>\n  </c>\n</a>\n',
  );
});

test('text cannot open, close or refer to anything', () => {
  expect(escapeXml('</b><c a="1">]]>&amp;&#10;<!--')).toBe(
    '&lt;/b&gt;&lt;c a=&quot;1&quot;&gt;]]&gt;&amp;amp;&amp;#10;&lt;!--',
  );
});

// XML 1.0 fifth edition, production 2.
test.each(
  [0x0, 0x1, 0x8, 0xb, 0xc, 0xe, 0x1b, 0x1f, 0xd800, 0xdbff, 0xdc00, 0xdfff, 0xfffe, 0xffff].map(
    (code) => [code.toString(16), code] as const,
  ),
)('U+%s is left out', (_hex, code) => {
  expect(xmlText(`a${String.fromCharCode(code)}b`)).toBe('ab');
});

test.each(
  [0x9, 0xa, 0x20, 0x7f, 0x85, 0xd7ff, 0xe000, 0xfffd, 0x10000, 0x1f954, 0x10ffff].map(
    (code) => [code.toString(16), code] as const,
  ),
)('U+%s stays', (_hex, code) => {
  expect(xmlText(`a${String.fromCodePoint(code)}b`)).toBe(`a${String.fromCodePoint(code)}b`);
});

test('half of a pair beside a whole one goes, the whole one stays', () => {
  expect(xmlText('\ud83d\ud83e\udd54\udd54')).toBe('\u{1f954}');
});

test('line ends are those that a parser hands on', () => {
  expect(xmlText('a\r\nb\rc\n')).toBe('a\nb\nc\n');
});
