; The colours of a script. What is not coloured is spoken.

(note) @comment
(aside) @comment
(direction) @comment
(silence) @constant.builtin

(rule) @markup.heading
(dashes) @punctuation.special
(kind) @keyword
(label) @markup.heading
(left_out) @comment

(key) @property
(value) @string
((value) @number
  (#match? @number "^[0-9]"))

(name) @type
(take) @number

(stress) @markup.italic
(keep) @markup.underline
(cut) @markup.strikethrough
(breath) @operator
(escape) @string.escape
