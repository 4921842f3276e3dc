/** Documents whose notation or names are refused: what is said, with line and column. */
import { describe, expect, it } from 'vitest';
import { formatDiagnostic, readDocument } from './index.ts';
import { testRegistry } from './testing/kinds.ts';

const said = (text: string): string[] =>
  readDocument(text, testRegistry).diagnostics.map((d) => formatDiagnostic(d, 'job.yaml'));

/** What is wrong, the document, what is said. */
const CASES: readonly (readonly [name: string, text: string, lines: readonly string[]])[] = [
  [
    'an empty document',
    '',
    ['job.yaml:1:1: found an empty document; a build begins with the line loomwright: 1'],
  ],
  [
    'only a comment',
    `# later
`,
    ['job.yaml:1:1: found an empty document; a build begins with the line loomwright: 1'],
  ],
  [
    'a list at the top',
    `- a
- b
`,
    [
      'job.yaml:1:1: found a list at the top; a build is a map of entries that begins with the line loomwright: 1',
    ],
  ],
  [
    'a single word',
    `battery
`,
    [
      'job.yaml:1:1: found "battery" at the top; a build is a map of entries that begins with the line loomwright: 1',
    ],
  ],
  [
    'no format version',
    `title: x
`,
    ['job.yaml:1:1: found no format version; write loomwright: 1 as the first line'],
  ],
  [
    'a version that is no number',
    `loomwright: one
`,
    ['job.yaml:1:13: found "one" as the format version; write loomwright: 1'],
  ],
  [
    'a second document',
    `loomwright: 1
---
loomwright: 1
`,
    ['job.yaml:2:1: found a second document in one file; write one build per file'],
  ],
  [
    'a key twice',
    `loomwright: 1
parts:
  b: { kind: battery }
  b: { kind: busbar }
`,
    ['job.yaml:4:3: found "b" in line 3 and again here; a name may stand only once, so rename or remove one'],
  ],
  [
    'a key twice in one line',
    `loomwright: 1
parts:
  b: { kind: battery, kind: busbar }
`,
    ['job.yaml:3:23: found "kind" twice in line 3; a name may stand only once, so rename or remove one'],
  ],
  [
    'no space after a colon',
    `loomwright: 1
parts:
  b: { kind:battery }
`,
    [
      'job.yaml:3:8: found "kind:battery", which is not known here; write a space after the colon: kind: battery',
    ],
  ],
  [
    'a name with a dot',
    `loomwright: 1
parts:
  a.b: { kind: battery }
`,
    [
      'job.yaml:3:3: found the name "a.b"; names are made of letters a to z, digits and dashes, and begin with a letter or digit, such as a-b',
    ],
  ],
  [
    'a name with an umlaut',
    `loomwright: 1
places:
  Küche hinten: {}
`,
    [
      'job.yaml:3:3: found the name "Küche hinten"; names are made of letters a to z, digits and dashes, and begin with a letter or digit, such as Kuche-hinten',
    ],
  ],
  [
    'an empty name',
    `loomwright: 1
parts:
  '': { kind: battery }
`,
    [
      'job.yaml:3:3: found an empty name; names are made of letters a to z, digits and dashes, and begin with a letter or digit',
    ],
  ],
  [
    'a name of programs',
    `loomwright: 1
parts:
  __proto__: { kind: battery }
`,
    [
      'job.yaml:3:3: found the name "__proto__"; names are made of letters a to z, digits and dashes, and begin with a letter or digit, such as proto',
    ],
  ],
  [
    'a name that is a list',
    `loomwright: 1
parts:
  ? [a, b]
  : { kind: battery }
`,
    ['job.yaml:3:5: found a value where a name is expected; write `name: value`'],
  ],
  [
    'an anchor and an alias',
    `loomwright: 1
title: &a x
notes: *a
`,
    [
      'job.yaml:2:8: found "&a", an anchor, which builds do not use: write the value out where it is used, or put a text that begins with & in quotes',
      'job.yaml:3:8: found "*a", an alias, which builds do not use: write the value out, or put a text that begins with * in quotes',
    ],
  ],
  [
    'a tag',
    `loomwright: 1
title: !!str x
`,
    [
      'job.yaml:2:8: found "!!str", a tag, which builds do not use: leave it out, or put a text that begins with ! in quotes',
    ],
  ],
  [
    'a directive',
    `%YAML 1.1
---
loomwright: 1
`,
    ['job.yaml:1:1: found "%YAML 1.1", a directive, which builds do not use: leave the line out'],
  ],
  [
    'a tab',
    'loomwright: 1\n\ttitle: x\n',
    ['job.yaml:2:1: found a tab at the beginning of a line; use spaces'],
  ],
  [
    'a quotation mark never closed',
    `loomwright: 1
title: "x
`,
    ['job.yaml:3:1: found a quotation mark that is never closed; close it, or take the first one away'],
  ],
  [
    'two colons in a line',
    `loomwright: 1
title: Job: 114
`,
    [
      "job.yaml:2:8: found a second colon in the line; put a value with a colon in it in quotes, such as 'Job: 114', or begin a new line",
    ],
  ],
  [
    'a brace never closed',
    `loomwright: 1
systems: { vehicle: 12 V
title: x
`,
    ['job.yaml:3:1: found no } for the { in line 2; close it, or indent what belongs inside'],
  ],
  [
    'a bracket too many',
    `loomwright: 1
requires: []]
`,
    ['job.yaml:2:13: found a closing brace or bracket that was never opened; take it away'],
  ],
  [
    'a missing comma',
    `loomwright: 1
systems: { vehicle: 12 V house: 12 V }
`,
    [
      'job.yaml:2:21: a comma is missing in the braces or brackets, or a dash or an indented line stands in them',
    ],
  ],
  [
    'a comma too many',
    `loomwright: 1
systems: { , vehicle: 12 V }
`,
    ['job.yaml:2:12: found a comma with nothing before it; take it away'],
  ],
  [
    'a line out of column',
    `loomwright: 1
parts:
  b:
    kind: battery
   at: x
`,
    [
      'job.yaml:5:1: this line is not in one column with the lines above that it belongs to; indent it like them',
    ],
  ],
  [
    'a line without a colon',
    `loomwright: 1
title
`,
    ['job.yaml:2:1: found a line without a colon; write `name: value`, or `- value` in a list'],
  ],
  [
    'text behind a quoted value',
    `loomwright: 1
title: 'it's'
`,
    ['job.yaml:2:12: found more text where the value was already complete; put the whole value in quotes'],
  ],
  [
    'a sign that begins nothing',
    `loomwright: 1
title: @home
`,
    [
      'job.yaml:2:8: found a value that begins with a sign that YAML keeps for itself; put the value in quotes',
    ],
  ],
  [
    'a list on the line of its name',
    `loomwright: 1
requires: - the owner can stop charging
`,
    [
      'job.yaml:2:11: a list cannot begin on the line of its name; begin it on the next line, write [a, b], or write a minus without a space',
      'job.yaml:2:13: found a line without a colon; write `name: value`, or `- value` in a list',
    ],
  ],
  [
    'a control character',
    'loomwright: 1\ntitle: a\u0007b\n',
    ['job.yaml:2:9: found the control character U+0007; take it out'],
  ],
  [
    'an escape to a control character',
    'loomwright: 1\ntitle: "a\\u0007b"\n',
    ['job.yaml:2:8: found a control character in a text; take it out'],
  ],
  [
    'a lone carriage return',
    'loomwright: 1\ntitle: a\rb\n',
    ['job.yaml:2:9: found a carriage return without a line feed; save the document with ordinary line ends'],
  ],
  [
    'an end before anything',
    `...
...
`,
    ['job.yaml:2:1: found a second document in one file; write one build per file'],
  ],
  [
    'a switch word',
    `loomwright: 1
parts:
  s: { kind: switch, momentary: off }
`,
    ['job.yaml:3:33: found "off"; did you mean no? (yes or no)'],
  ],
  [
    'a brace of nothing',
    `}
`,
    ['job.yaml:1:1: found a closing brace or bracket that was never opened; take it away'],
  ],
  [
    'a stop in the middle',
    `loomwright: 1
...
title: x
`,
    ['job.yaml:3:1: found a second document in one file; write one build per file'],
  ],
];

describe('notation that is refused', () => {
  it.each(CASES)('%s', (_name, text, lines) => {
    expect(said(text)).toEqual(lines);
    expect(readDocument(text, testRegistry).build).toBeNull();
  });
});
