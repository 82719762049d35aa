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
  LEFT_OUT,
  TEXT,
  LINE_BREAK,
  PARAGRAPH_END,
  ESCAPE,
  BREATH,
  SILENCE,
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

enum { MOST_OPEN = 16 };

typedef struct {
  uint8_t mode;       // of enum Mode, in line.h
  uint8_t part;       // of enum Part, in line.h
  uint8_t line_start; // within a paragraph
  uint8_t depth;      // of brackets
  uint8_t open_count;
  uint8_t open[MOST_OPEN]; // of enum Span, in marks.h, the outermost first
  int32_t before;          // the code point before, or 0 at a paragraph's start
} State;

void *tree_sitter_say_external_scanner_create(void) { return ts_calloc(1, sizeof(State)); }

void tree_sitter_say_external_scanner_destroy(void *payload) { ts_free(payload); }

unsigned tree_sitter_say_external_scanner_serialize(void *payload, char *buffer) {
  memcpy(buffer, payload, sizeof(State));
  return sizeof(State);
}

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

// The rest of the line, its end left out. The lexer stands at the end afterwards.
static void read_line(TSLexer *lexer, Text *text) {
  while (!lexer->eof(lexer) && lexer->lookahead != '\n') {
    text_push(text, lexer->lookahead);
    advance(lexer);
  }
}

// ---- Lines

static bool whole_line(TSLexer *lexer, enum Token token) {
  lexer->mark_end(lexer);
  return emit(lexer, token);
}

static bool scan_blank(TSLexer *lexer, State *state, const Text *line) {
  if (state->mode == SETTINGS) state->mode = BODY;
  if (lexer->eof(lexer) && !line->size) return false;
  if (!lexer->eof(lexer)) advance(lexer);
  return whole_line(lexer, BLANK);
}

static bool scan_line(TSLexer *lexer, State *state, Text *line) {
  while (is_lead(lexer->lookahead) && lexer->lookahead != '\n' && !lexer->eof(lexer)) {
    text_push(line, lexer->lookahead);
    advance(lexer);
  }
  lexer->mark_end(lexer);
  read_line(lexer, line);
  enum Line kind = line_kind(line, state->mode, state->part);
  state->depth = state->open_count = state->line_start = 0;
  state->before = 0;
  switch (kind) {
  case BLANK_LINE:
    return scan_blank(lexer, state, line);
  case NOTE_LINE:
    return whole_line(lexer, NOTE);
  case ASIDE_LINE:
    return whole_line(lexer, ASIDE);
  case UNREADABLE_LINE:
    return whole_line(lexer, UNREADABLE);
  case SETTING_LINE:
    state->mode = SETTINGS;
    return emit(lexer, SETTING_START);
  case RULE_LINE:
    state->mode = BODY;
    state->part = part_of(line, state->part);
    return emit(lexer, RULE_START);
  case TAKE_LINE:
    return whole_line(lexer, TAKE);
  case CUE_LINE:
    state->mode = BODY;
    return emit(lexer, CUE_START);
  default:
    state->mode = BODY;
    state->before = line->size && lead_length(line) ? line->at[lead_length(line) - 1] : 0;
    return emit(lexer, PARAGRAPH_START);
  }
}

// ---- Settings, rules and cues

static void skip_blanks(TSLexer *lexer) {
  while (lexer->lookahead != '\n' && is_space(lexer->lookahead)) advance(lexer);
}

static bool scan_line_end(TSLexer *lexer) {
  if (lexer->lookahead == '\n') advance(lexer);
  return whole_line(lexer, LINE_END);
}

// Up to the line's end or, where `stops`, to the `;` of the next setting; trailing blanks out.
static bool scan_words(TSLexer *lexer, enum Token token, bool in_rule, Text *text) {
  read_line(lexer, text);
  (void)in_rule;
  return emit(lexer, token);
}
