"""What YAML 1.2 can be written with, a feature a text, after the chapters of its specification (1.2.2, 2021).

The texts are our own. Of each it is said whether a file of ours may hold it: `words` are what is then read.
"""

from __future__ import annotations

from shorewalk.tree.source import Data

READ: dict[str, tuple[str, Data]] = {
    # 2 and 6: how a text is laid out
    "block mapping": ("cord: out\nmain: off\n", {"cord": "out", "main": "off"}),
    "block sequence in a mapping": ("loads:\n- kettle\n- iron\n", {"loads": ["kettle", "iron"]}),
    "sequence further in": ("loads:\n  - kettle\n", {"loads": ["kettle"]}),
    "mapping in a sequence": ("a:\n- b: c\n  d: e\n- f: g\n", {"a": [{"b": "c", "d": "e"}, {"f": "g"}]}),
    "sequence in a sequence": ("a:\n- - b\n  - c\n- - d\n", {"a": [["b", "c"], ["d"]]}),
    "comments": ("# above\na: b # beside\n  # below\n", {"a": "b"}),
    "blank lines": ("\n\na: b\n\n\nc: d\n\n", {"a": "b", "c": "d"}),
    "no line break at the end": ("a: b", {"a": "b"}),
    "carriage returns with line feeds": ("a: b\r\nc: d\r\n", {"a": "b", "c": "d"}),
    "blanks at the ends of lines": ("a: b  \nc:   d \n", {"a": "b", "c": "d"}),
    "a value on the next line": ("a:\n  b\n", {"a": "b"}),
    "a document with its marks": ("---\na: b\n...\n", {"a": "b"}),
    "a directive of the version": ("%YAML 1.1\n---\na: b\n", {"a": "b"}),
    "nothing after a colon": ("a:\nb:\n", {"a": "", "b": ""}),
    # 7: flow style
    "flow mapping": ("a: {b: c, d: e}\n", {"a": {"b": "c", "d": "e"}}),
    "flow sequence": ("a: [b, c , d]\n", {"a": ["b", "c", "d"]}),
    "flow over lines": ("a: [b,\n  c,\n  ]\n", {"a": ["b", "c"]}),
    "flow in flow": ("a: [{b: [c]}, {}]\n", {"a": [{"b": ["c"]}, {}]}),
    "empty flow": ("a: []\nb: {}\n", {"a": [], "b": {}}),
    "a pair in a flow sequence": ("a: [b: c]\n", {"a": [{"b": "c"}]}),
    "single quotes": ("a: 'it''s # no comment: here'\n", {"a": "it's # no comment: here"}),
    "double quotes": ('a: "b \\"c\\" \\u00e9 \\x41"\n', {"a": 'b "c" é A'}),
    "quotes over lines": ("a: 'one\n  two\n\n  three'\n", {"a": "one two\nthree"}),
    "double quotes that go on": ('a: "one \\\n  two"\n', {"a": "one two"}),
    "plain over lines": ("a: one\n  two\n  three\n", {"a": "one two three"}),
    "plain with signs": ("a: b-c, d?e :f #g\nh: x:y\n", {"a": "b-c, d?e :f", "h": "x:y"}),
    "quoted keys": ("'a b': c\n\"d\": e\n", {"a b": "c", "d": "e"}),
    "keys with blanks": ("a b c: d\n", {"a b c": "d"}),
    "an explicit key": ("? a\n: b\n", {"a": "b"}),
    # 8: block style
    "literal": ("a: |\n  one\n   two\n", {"a": "one\n two\n"}),
    "literal, end stripped": ("a: |-\n  one\n\n", {"a": "one"}),
    "literal, end kept": ("a: |+\n  one\n\n", {"a": "one\n\n"}),
    "folded": ("a: >\n  one\n  two\n\n  three\n", {"a": "one two\nthree\n"}),
    "folded, end stripped": ("a: >-\n  one\n  two\n", {"a": "one two"}),
    "indentation said": ("a: |2\n   one\n", {"a": " one\n"}),
    "a comment behind the sign": ("a: | # why\n  one\n", {"a": "one\n"}),
    # 10: what other readers make of words
    "words that are truth elsewhere": ("a: yes\nb: True\nc: on\n", {"a": "yes", "b": "True", "c": "on"}),
    "words that are nothing elsewhere": ("a: null\nb: ~\n", {"a": "null", "b": "~"}),
    "numbers of every kind": (
        "a: 010\nb: 0x1F\nc: 1_000\nd: 1e3\ne: .inf\n",
        {"a": "010", "b": "0x1F", "c": "1_000", "d": "1e3", "e": ".inf"},
    ),
    "times and dates": ("a: 12:30\nb: 2024-05-01\n", {"a": "12:30", "b": "2024-05-01"}),
}

REFUSED: dict[str, str] = {
    # 3 and 9: what a stream may hold beside one document
    "an empty stream": "",
    "a comment alone": "# nothing\n",
    "marks alone": "---\n...\n",
    "two documents": "a: b\n---\nc: d\n",
    "a document after the end": "a: b\n...\nc: d\n",
    "a list at the top": "- a\n- b\n",
    "a word at the top": "a\n",
    "a text at the top": "|\n  a\n",
    "an unknown version": "%YAML 9.9\n---\na: b\n",
    "a directive twice": "%YAML 1.1\n%YAML 1.1\n---\na: b\n",
    "a directive without a document": "%YAML 1.1\n",
    # 6.8, 6.9: tags, anchors, aliases
    "a short tag": "a: !thing b\n",
    "a tag by a handle": "%TAG !e! tag:example.org,2024:\n---\na: !e!b c\n",
    "a whole tag": "a: !<tag:example.org,2024:b> c\n",
    "a tag of the core": "a: !!int 5\n",
    "a binary tag": "a: !!binary R0lG\n",
    "a set": "a: !!set {b, c}\n",
    "an ordered mapping": "a: !!omap [b: c]\n",
    "an anchor": "a: &b c\n",
    "an anchor on a list": "a: &b\n- c\n",
    "an anchor on a key": "&a b: c\n",
    "an alias": "a: &b c\nd: *b\n",
    "an alias to what holds it": "a: &b [*b]\n",
    "an alias as a key": "a: &b c\n*b : d\n",
    "a merge of lists": "a: &b {c: d}\ne: {<<: [*b]}\n",
    "a property that stands alone": "a: &b\n",
    # 7.4, 8.2: keys that are no word
    "a list as a key": "? [a, b]\n: c\n",
    "a mapping as a key": "? {a: b}\n: c\n",
    "a key that is empty": ": a\n",
    "a key of many lines": "? |\n  a\n: b\n: c\n",
    "a twin in flow": "a: {b: c, b: d}\n",
    "a word alone among keys": "a: b\nc\nd: e\n",
    # 5: characters, 6.1: indentation
    "a tab before a key": "a:\n\tb: c\n",
    "a tab before an item": "a:\n-\tb: c\n\td: e\n",
    "a form feed": "a: b\x0c\n",
    "a null": "a: b\x00\n",
    "a reserved sign": "a: @b\n",
    "another reserved sign": "a: `b`\n",
    "a percent at the beginning": "a: %b\n",
    "indentation that goes back too little": "a:\n    b: c\n  d: e\n",
    "a list that goes back": "a:\n  - b\n - c\n",
    "a sign of a text with words behind": "a: | b\n  c\n",
    "an indentation of nought": "a: |0\n b\n",
    # what does not end
    "an open list": "a: [b, c\n",
    "an open mapping": "a: {b: c\n",
    "an open quote": 'a: "b\n',
    "a bracket too many": "a: [b]]\n",
    "two commas": "a: [b,, c]\n",
    "a mark inside quotes": "a: 'b\n---\nc'\n",
    "two values on a line": "a: b: c\n",
    "words behind quotes": "a: 'b' c\n",
    "an unknown escape": 'a: "\\y"\n',
    "an escape cut short": 'a: "\\u12"\n',
}
