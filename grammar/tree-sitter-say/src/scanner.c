// Tells the tokens of a `.say` file: what each line is, and where each mark of a paragraph opens
// and closes. A mark is one only where its partner stands in the same paragraph, so the scanner
// reads ahead to the paragraph's end; the text it reads is kept no longer than one call.
#include "line.h"
#include "marks.h"
#include "tree_sitter/alloc.h"
#include "tree_sitter/parser.h"

enum Token {
  BLANK,
  NOTE,
  ASIDE,
  TAKE,
  UNREADABLE,
  SETTING_START,
  RULE_START,
  CUE_START,
  PARAGRAPH_START,
  LINE_END,
  LABEL,
  VALUE,
  NAME,
  PART_SETTING_START,
  KEY_COLON,
  LEFT_OUT,
  TEXT,
  LINE_BREAK,
  PARAGRAPH_END,
  ESCAPE,
  BREATH,
  SILENCE_OPEN,
  DIRECTION_OPEN,
  DIRECTION_CLOSE,
  STRESS_OPEN,
  STRESS_CLOSE,
  KEEP_OPEN,
  KEEP_CLOSE,
  CUT_OPEN,
  CUT_CLOSE,
  NEVER, // valid only where the parser has lost its way
};

// A mark's partner is looked for no further than `MOST_AHEAD` code points, longer than any speech
// without a breath; so the time for a file grows with its length alone.
enum { MOST_OPEN = 16, MOST_AHEAD = 4096 };

typedef struct {
  Place place;
  uint8_t line_start; // within a paragraph
  uint32_t depth;     // of brackets
  uint8_t open_count;
  uint8_t open[MOST_OPEN]; // of enum Span, the outermost first
  int32_t before;          // the code point before, or 0 at a paragraph's start
} State;

void *tree_sitter_say_external_scanner_create(void) { return ts_calloc(1, sizeof(State)); }

void tree_sitter_say_external_scanner_destroy(void *payload) { ts_free(payload); }

unsigned tree_sitter_say_external_scanner_serialize(void *payload, char *buffer) {
  memcpy(buffer, payload, sizeof(State));
  return sizeof(State);
}

_Static_assert(sizeof(State) <= TREE_SITTER_SERIALIZATION_BUFFER_SIZE, "the state must fit");

void tree_sitter_say_external_scanner_deserialize(void *payload, const char *buffer,
                                                  unsigned length) {
  memset(payload, 0, sizeof(State));
  if (length == sizeof(State)) memcpy(payload, buffer, length);
}

static bool emit(TSLexer *lexer, enum Token token) {
  lexer->result_symbol = token;
  return true;
}

static void advance(TSLexer *lexer) { lexer->advance(lexer, false); }

static bool at_end(TSLexer *lexer) { return lexer->eof(lexer) || lexer->lookahead == '\n'; }

static bool take(TSLexer *lexer, enum Token token) {
  lexer->mark_end(lexer);
  return emit(lexer, token);
}

// The rest of the line, or as much as `most`.
static void read_line(TSLexer *lexer, Text *text, uint32_t most) {
  for (; !at_end(lexer) && text->size < most; advance(lexer)) text_push(text, lexer->lookahead);
}

// ---- A line's start

static bool scan_line(TSLexer *lexer, State *state, Text *line) {
  for (; !at_end(lexer) && is_lead(lexer->lookahead); advance(lexer))
    text_push(line, lexer->lookahead);
  lexer->mark_end(lexer);
  read_line(lexer, line, UINT32_MAX);
  if (lexer->eof(lexer) && !line->size) return false;
  uint32_t lead = lead_length(line);
  state->depth = state->open_count = state->line_start = 0;
  state->before = lead ? line->at[lead - 1] : 0;
  enum Line kind = line_kind(line, &state->place);
  enter(&state->place, line, kind);
  if (kind == BLANK_LINE && !lexer->eof(lexer)) advance(lexer);
  static const enum Token TOKENS[] = {
      [BLANK_LINE] = BLANK,           [NOTE_LINE] = NOTE,       [SETTING_LINE] = SETTING_START,
      [UNREADABLE_LINE] = UNREADABLE, [RULE_LINE] = RULE_START, [ASIDE_LINE] = ASIDE,
      [TAKE_LINE] = TAKE,             [CUE_LINE] = CUE_START,   [SPEECH_LINE] = PARAGRAPH_START,
  };
  bool is_whole = kind == BLANK_LINE || kind == NOTE_LINE || kind == UNREADABLE_LINE ||
                  kind == ASIDE_LINE || kind == TAKE_LINE;
  if (is_whole) lexer->mark_end(lexer);
  return emit(lexer, TOKENS[kind]);
}

// ---- Settings, rules and cues

// Whether a `;` and the key of a setting stand here. Reads past them; the token may end between.
static bool reads_key(TSLexer *lexer, bool ends_before_key) {
  char word[LONGEST_WORD + 1] = {0};
  uint32_t length = 0;
  for (advance(lexer); !at_end(lexer) && is_space(lexer->lookahead);) advance(lexer);
  if (ends_before_key) lexer->mark_end(lexer);
  for (; is_ascii_letter(lexer->lookahead) || lexer->lookahead == '-'; advance(lexer)) {
    if (length == LONGEST_WORD) return false;
    word[length++] = (char)lower(lexer->lookahead);
  }
  int32_t next = lexer->lookahead;
  bool ends = at_end(lexer) || is_space(next) || next == ':' || next == ';';
  return ends && (is_one_of(word, KEYS) || is_one_of(word, GOALS));
}

// Up to the line's end or, in a rule, to the `;` of the next setting; spaces at the end left out.
static bool scan_phrase(TSLexer *lexer, enum Token token, bool in_rule) {
  while (!at_end(lexer)) {
    int32_t c = lexer->lookahead;
    if (c == ';' && in_rule) {
      if (reads_key(lexer, false)) break;
      lexer->mark_end(lexer);
      continue;
    }
    advance(lexer);
    if (!is_space(c)) lexer->mark_end(lexer);
  }
  return emit(lexer, token);
}

static bool scan_name(TSLexer *lexer) {
  while (!at_end(lexer) && lexer->lookahead != ':') {
    bool is_end = !is_space(lexer->lookahead);
    advance(lexer);
    if (is_end) lexer->mark_end(lexer);
  }
  return emit(lexer, NAME);
}

static bool scan_in_line(TSLexer *lexer, const bool *valid) {
  while (!at_end(lexer) && is_space(lexer->lookahead)) lexer->advance(lexer, true);
  if (at_end(lexer)) {
    if (!valid[LINE_END]) return false;
    if (!lexer->eof(lexer)) advance(lexer);
    return take(lexer, LINE_END);
  }
  if (valid[NAME]) return scan_name(lexer);
  bool in_rule = valid[PART_SETTING_START];
  if (valid[KEY_COLON] && lexer->lookahead == ':') {
    advance(lexer);
    return take(lexer, KEY_COLON);
  }
  bool is_semicolon = lexer->lookahead == ';';
  if (in_rule && is_semicolon && reads_key(lexer, true)) return emit(lexer, PART_SETTING_START);
  if (is_semicolon && valid[LEFT_OUT]) return scan_phrase(lexer, LEFT_OUT, true);
  if (valid[LABEL]) return scan_phrase(lexer, LABEL, true);
  return valid[VALUE] && scan_phrase(lexer, VALUE, in_rule);
}

// ---- Paragraphs

static bool ends_paragraph(const Text *line, const State *state) {
  enum Line kind = line_kind(line, &state->place);
  return kind == BLANK_LINE || kind == RULE_LINE || kind == CUE_LINE;
}

// The rest of the paragraph, its notes left out.
static void read_paragraph(TSLexer *lexer, const State *state, Text *text) {
  Text line = {0};
  read_line(lexer, text, MOST_AHEAD);
  while (lexer->lookahead == '\n' && text->size < MOST_AHEAD) {
    advance(lexer);
    line.size = 0;
    read_line(lexer, &line, MOST_AHEAD);
    if (ends_paragraph(&line, state)) break;
    text_push(text, '\n');
    if (is_note(&line)) continue;
    for (uint32_t i = 0; i < line.size; i++) text_push(text, line.at[i]);
  }
  text_free(&line);
}

static bool scan_break(TSLexer *lexer, State *state, const bool *valid, Text *line) {
  if (!lexer->eof(lexer)) advance(lexer);
  lexer->mark_end(lexer);
  read_line(lexer, line, UINT32_MAX);
  if (ends_paragraph(line, state)) return valid[PARAGRAPH_END] && emit(lexer, PARAGRAPH_END);
  state->line_start = true;
  state->before = '\n';
  return valid[LINE_BREAK] && emit(lexer, LINE_BREAK);
}

// A note, or the white space and perhaps the `#` that a line of speech starts with.
static bool scan_line_start(TSLexer *lexer, State *state, Text *line) {
  for (; !at_end(lexer) && is_lead(lexer->lookahead); advance(lexer))
    text_push(line, lexer->lookahead);
  lexer->mark_end(lexer);
  if (lexer->lookahead == '#') {
    text_push(line, '#');
    advance(lexer);
    if (at_end(lexer) || is_space(lexer->lookahead)) {
      read_line(lexer, line, UINT32_MAX);
      return take(lexer, NOTE);
    }
    lexer->mark_end(lexer);
  }
  if (line->size) state->before = line->at[line->size - 1];
  return line->size && emit(lexer, TEXT);
}

static bool scan_bracket(TSLexer *lexer, State *state, Text *text, bool in_cue) {
  advance(lexer);
  lexer->mark_end(lexer);
  state->before = '(';
  if (in_cue) read_line(lexer, text, MOST_AHEAD);
  else read_paragraph(lexer, state, text);
  uint32_t closing = closing_bracket(text);
  if (closing == NONE) return emit(lexer, TEXT);
  state->depth = 1;
  return emit(lexer, is_silence(text, closing) ? SILENCE_OPEN : DIRECTION_OPEN);
}

static bool scan_in_direction(TSLexer *lexer, State *state) {
  for (bool any = false; !at_end(lexer); any = true) {
    int32_t c = lexer->lookahead;
    if (c == ')' && state->depth == 1) {
      if (any) break;
      advance(lexer);
      state->depth = 0;
      state->before = ')';
      return take(lexer, DIRECTION_CLOSE);
    }
    if (c == '(') state->depth++;
    if (c == ')') state->depth--;
    advance(lexer);
    if (is_escape(c, lexer->lookahead)) advance(lexer);
    lexer->mark_end(lexer);
  }
  return emit(lexer, TEXT);
}

static bool scan_span(TSLexer *lexer, State *state, int32_t mark, uint32_t length, Text *text) {
  static const enum Token OPEN[] = {STRESS_OPEN, KEEP_OPEN, CUT_OPEN};
  static const enum Token CLOSE[] = {STRESS_CLOSE, KEEP_CLOSE, CUT_CLOSE};
  enum Span kind = span_of(mark, length);
  int32_t before = state->before, after = lexer->eof(lexer) ? 0 : lexer->lookahead;
  bool is_open = state->open_count && state->open[state->open_count - 1] == kind;
  state->before = mark;
  if (kind == NO_SPAN) return emit(lexer, TEXT);
  if (is_open && can_close(before, after)) {
    state->open_count--;
    return emit(lexer, CLOSE[kind]);
  }
  if (!can_open(before, after) || state->open_count == MOST_OPEN) return emit(lexer, TEXT);
  read_paragraph(lexer, state, text);
  if (!is_closed(text, mark, kind, state->open, state->open_count)) return emit(lexer, TEXT);
  state->open[state->open_count++] = kind;
  return emit(lexer, OPEN[kind]);
}

static bool scan_mark(TSLexer *lexer, State *state, Text *text) {
  int32_t mark = lexer->lookahead, before = state->before;
  uint32_t length = 1;
  advance(lexer);
  if (mark == '\\') {
    bool escapes = !lexer->eof(lexer) && is_escape(mark, lexer->lookahead);
    state->before = escapes ? lexer->lookahead : mark;
    if (escapes) advance(lexer);
    return take(lexer, escapes ? ESCAPE : TEXT);
  }
  if (mark == ')') length = 0;
  else
    for (; !lexer->eof(lexer) && lexer->lookahead == mark; advance(lexer)) length++;
  lexer->mark_end(lexer);
  if (mark == '*' || mark == '_' || mark == '~') return scan_span(lexer, state, mark, length, text);
  state->before = mark;
  bool parts = !is_word(before) || lexer->eof(lexer) || !is_word(lexer->lookahead);
  return emit(lexer, mark == '|' && length <= 2 && parts ? BREATH : TEXT);
}

static bool is_special(int32_t c) { return c > 0 && c < 0x80 && strchr("\\()|*_~", c); }

static bool scan_in_paragraph(TSLexer *lexer, State *state, const bool *valid, Text *text) {
  if (state->line_start) {
    state->line_start = false;
    if (is_lead(lexer->lookahead) || lexer->lookahead == '#') {
      if (!at_end(lexer)) return scan_line_start(lexer, state, text);
    }
  }
  if (at_end(lexer)) return scan_break(lexer, state, valid, text);
  if (state->depth) return scan_in_direction(lexer, state);
  if (lexer->lookahead == '(') return scan_bracket(lexer, state, text, false);
  if (is_special(lexer->lookahead)) return scan_mark(lexer, state, text);
  while (!at_end(lexer) && !is_special(lexer->lookahead)) {
    state->before = lexer->lookahead;
    advance(lexer);
  }
  return take(lexer, TEXT);
}

bool tree_sitter_say_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
  State *state = (State *)payload;
  Text text = {0};
  bool found = false;
  if (valid[NEVER]) return false;
  if (valid[PARAGRAPH_START]) {
    found = scan_line(lexer, state, &text);
  } else if (valid[TEXT]) {
    found = scan_in_paragraph(lexer, state, valid, &text);
  } else {
    found = scan_in_line(lexer, valid);
    if (!found && valid[DIRECTION_OPEN] && lexer->lookahead == '(')
      found = scan_bracket(lexer, state, &text, true);
  }
  text_free(&text);
  return found;
}
