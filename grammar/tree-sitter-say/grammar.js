// Say, the markup of monologues: design in grammar/say.abnf, judged by grammar/corpus.
//
// What a line is and which mark closes which takes a look ahead, so src/scanner.c tells nearly
// every token; the rules here only put them together. White space is part of the tokens.

module.exports = grammar({
  name: "say",

  extras: () => [],

  externals: ($) => [
    // at a line's start: a line, or the white space that one begins with
    $._blank,
    $.note,
    $.aside,
    $.take,
    $.unreadable,
    $._setting_start,
    $._rule_start,
    $._cue_start,
    $._paragraph_start,
    // within a line
    $._line_end,
    $.label,
    $.value,
    $.name,
    $._part_setting_start,
    $._key_colon,
    $.left_out,
    // within a paragraph
    $._text,
    $._line_break,
    $._paragraph_end,
    $.escape,
    $.breath,
    $._silence_open,
    $._direction_open,
    $._direction_close,
    $._stress_open,
    $._stress_close,
    $._keep_open,
    $._keep_close,
    $._cut_open,
    $._cut_close,
    $._never,
  ],

  rules: {
    script: ($) => seq(repeat(choice($._block, $.setting)), repeat($.part)),

    part: ($) => seq($.rule, repeat($._block)),

    _block: ($) =>
      choice(
        $._blank,
        seq($.note, $._line_end),
        seq($.aside, $._line_end),
        seq($.take, $._line_end),
        $.cue,
        $.paragraph,
      ),

    setting: ($) =>
      seq(
        choice($.unreadable, seq($._setting_start, $.key, $._colon, optional($.value))),
        $._line_end,
      ),

    rule: ($) =>
      seq(
        $._rule_start,
        $.dashes,
        optional(
          seq(
            optional($._space),
            $.kind,
            optional(choice(seq($._colon, optional($.label)), $.left_out)),
            repeat($.part_setting),
          ),
        ),
        $._line_end,
      ),

    part_setting: ($) =>
      seq($._part_setting_start, $.key, optional($._key_colon), optional($.value)),

    cue: ($) =>
      seq(
        $._cue_start,
        $.name,
        $._colon,
        optional(choice($.direction, $.silence)),
        $._line_end,
      ),

    paragraph: ($) => seq($._paragraph_start, repeat($._mark), $._paragraph_end),

    _mark: ($) =>
      choice(
        $._text,
        $._line_break,
        $.note,
        $.escape,
        $.breath,
        $.silence,
        $.direction,
        $.stress,
        $.keep,
        $.cut,
      ),

    direction: ($) => seq($._direction_open, repeat($._unmarked), $._direction_close),
    silence: ($) => seq($._silence_open, repeat($._unmarked), $._direction_close),
    _unmarked: ($) => choice($._text, $._line_break, $.note),

    stress: ($) => seq($._stress_open, repeat($._mark), $._stress_close),
    keep: ($) => seq($._keep_open, repeat($._mark), $._keep_close),
    cut: ($) => seq($._cut_open, repeat($._mark), $._cut_close),

    dashes: () => /----+/, // four or more
    kind: () => /[A-Za-z]+/,
    key: () => /[A-Za-z][A-Za-z-]*/,
    _colon: () => /[ \t]*:[ \t]*/,
    _space: () => /[ \t]+/,
  },
});
