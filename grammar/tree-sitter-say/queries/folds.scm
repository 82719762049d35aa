; A part under its rule, and a paragraph of several lines.

(part) @fold
(paragraph) @fold
