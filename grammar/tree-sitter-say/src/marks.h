// Which mark of a paragraph closes which. `text` is what follows a mark, to the paragraph's end.
#ifndef SAY_MARKS_H
#define SAY_MARKS_H

#include "text.h"

enum Span { STRESS, KEEP, CUT, NO_SPAN };

#define NONE UINT32_MAX

static inline bool is_escape(int32_t backslash, int32_t next) {
  return backslash == '\\' && next > 0 && next < 0x80 && strchr("\\()|*_~#-:", next);
}

static inline enum Span span_of(int32_t mark, uint32_t length) {
  if (mark == '*' && length == 1) return STRESS;
  if (mark == '_' && length == 2) return KEEP;
  if (mark == '~' && length == 2) return CUT;
  return NO_SPAN;
}

static inline bool can_open(int32_t before, int32_t after) {
  return after && !is_space(after) && may_precede_opening(before);
}

static inline bool can_close(int32_t before, int32_t after) {
  return before && !is_space(before) && !is_word(after);
}

// For each bracket that opens a direction, where it closes; else NONE. To be freed.
static uint32_t *pair_brackets(const Text *text) {
  uint32_t *partners = (uint32_t *)ts_malloc((text->size + 1) * 2 * sizeof(uint32_t));
  uint32_t *opened = partners + text->size + 1, count = 0;
  for (uint32_t i = 0; i < text->size; i++) {
    partners[i] = NONE;
    if (is_escape(text->at[i], at(text, i + 1))) partners[++i] = NONE;
    else if (text->at[i] == '(') opened[count++] = i;
    else if (text->at[i] == ')' && count) partners[opened[--count]] = i;
  }
  return partners;
}

// Where the bracket before `text` closes, or NONE.
static uint32_t closing_bracket(const Text *text) {
  uint32_t depth = 1;
  for (uint32_t i = 0; i < text->size; i++) {
    if (is_escape(text->at[i], at(text, i + 1))) i++;
    else if (text->at[i] == '(') depth++;
    else if (text->at[i] == ')' && --depth == 0) return i;
  }
  return NONE;
}

// Whether the opening mark of `kind` before `text` is closed, and before any of `open` is:
// spans that overlap are no tree, and then the later one gives way.
static bool is_closed(const Text *text, int32_t mark, enum Span kind, const uint8_t *open,
                      uint8_t open_count) {
  uint32_t inner[3] = {0}, outer[3] = {0};
  uint32_t *brackets = pair_brackets(text);
  int32_t before = mark;
  bool closed = false;
  inner[kind] = 1;
  for (uint8_t i = 0; i < open_count; i++) outer[open[i]]++;
  for (uint32_t i = 0, end; i < text->size; i = end) {
    int32_t c = text->at[i];
    end = i + 1;
    if (is_escape(c, at(text, end))) end++;
    else if (c == '(' && brackets[i] != NONE) end = brackets[i] + 1;
    else if (c == '*' || c == '_' || c == '~') {
      while (at(text, end) == c) end++;
      enum Span found = span_of(c, end - i);
      bool closes = found != NO_SPAN && can_close(before, at(text, end));
      if (closes && inner[found]) {
        if (--inner[found] == 0 && found == kind) {
          closed = true;
          break;
        }
      } else if (closes && outer[found]) {
        break;
      } else if (found != NO_SPAN && can_open(before, at(text, end))) {
        inner[found]++;
      }
    }
    before = text->at[end - 1];
  }
  ts_free(brackets);
  return closed;
}

static uint32_t skip_blanks_in(const Text *text, uint32_t from) {
  while (is_space(at(text, from))) from++;
  return from;
}

// Past the one of `words` that stands at `from`, or `from` where none does.
static uint32_t skip_one_of(const Text *text, uint32_t from, const char *const *words) {
  for (; *words; words++) {
    uint32_t length = 0;
    while ((*words)[length] && lower(at(text, from + length)) == (*words)[length]) length++;
    if (!(*words)[length]) return from + length;
  }
  return from;
}

// The same for a word that a blank follows; past the blanks too.
static uint32_t skip_word(const Text *text, uint32_t from, const char *const *words) {
  uint32_t end = skip_one_of(text, from, words);
  return end > from && is_space(at(text, end)) ? skip_blanks_in(text, end) : from;
}

// A time, near enough: figures, their marks, and a unit's letters.
static bool is_time(const Text *text, uint32_t from, uint32_t end) {
  if (!is_between(at(text, from), '0', '9')) return false;
  for (; from < end; from++) {
    int32_t c = lower(text->at[from]);
    bool is_known = is_space(c) || is_between(c, '0', '9');
    if (!is_known && !(c > 0 && c < 0x80 && strchr(".,:minutescod", c))) return false;
  }
  return true;
}

// Whether `text` up to the closing bracket at `end` is a silence's name and perhaps its time.
static bool is_silence(const Text *text, uint32_t end) {
  static const char *const ARTICLES[] = {"an", "a", "the", NULL};
  static const char *const SIZES[] = {"short", "long", NULL};
  static const char *const NAMES[] = {"breath", "beat", "pause", "silence", NULL};
  uint32_t name = skip_word(text, skip_blanks_in(text, 0), ARTICLES);
  name = skip_word(text, name, SIZES);
  uint32_t from = skip_one_of(text, name, NAMES);
  if (from == name) return false;
  from = skip_blanks_in(text, from);
  if (at(text, from) == '.' || at(text, from) == ',' || at(text, from) == ':') from++;
  from = skip_blanks_in(text, from);
  return from == end || is_time(text, from, end);
}

#endif
