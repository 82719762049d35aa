// A growing run of code points, and what a code point is to the markup.
#ifndef SAY_TEXT_H
#define SAY_TEXT_H

#include "tree_sitter/alloc.h"
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

typedef struct {
  int32_t *at;
  uint32_t size, room;
} Text;

static inline void text_push(Text *text, int32_t character) {
  if (text->size == text->room) {
    text->room = text->room ? text->room * 2 : 128;
    text->at = (int32_t *)ts_realloc(text->at, text->room * sizeof(int32_t));
  }
  text->at[text->size++] = character;
}

static inline void text_free(Text *text) {
  ts_free(text->at);
  memset(text, 0, sizeof(Text));
}

static inline int32_t at(const Text *text, uint32_t index) {
  return index < text->size ? text->at[index] : 0;
}

static inline bool is_between(int32_t c, int32_t low, int32_t high) {
  return low <= c && c <= high;
}

static inline bool is_space(int32_t c) {
  return is_between(c, 9, 13) || is_between(c, 0x1c, 0x20) || c == 0x85 || c == 0xa0 ||
         c == 0x1680 || is_between(c, 0x2000, 0x200a) || c == 0x2028 || c == 0x2029 ||
         c == 0x202f || c == 0x205f || c == 0x3000;
}

// Marks of writing direction and a byte-order mark
static inline bool is_unseen(int32_t c) {
  return c == 0xfeff || c == 0x200e || c == 0x200f || c == 0x061c ||
         is_between(c, 0x202a, 0x202e) || is_between(c, 0x2066, 0x2069);
}

static inline bool is_lead(int32_t c) { return is_space(c) || is_unseen(c); }

static inline int32_t lower(int32_t c) { return is_between(c, 'A', 'Z') ? c + 32 : c; }

static inline bool is_ascii_letter(int32_t c) { return is_between(lower(c), 'a', 'z'); }

// A letter or a figure, near enough: beyond Latin-1 all that is no known mark, symbol or accent
static inline bool is_word(int32_t c) {
  if (c < 0x80) return is_ascii_letter(c) || is_between(c, '0', '9');
  if (c < 0xc0) return strchr("\xaa\xb2\xb3\xb5\xb9\xba\xbc\xbd\xbe", c) != NULL;
  return c != 0xd7 && c != 0xf7 && !is_space(c) && !is_unseen(c) && !is_between(c, 0x300, 0x36f) &&
         !is_between(c, 0x2010, 0x206f) && !is_between(c, 0x20a0, 0x20ff) &&
         !is_between(c, 0x2190, 0x245f) && !is_between(c, 0x2500, 0x2bff) &&
         !is_between(c, 0x2e00, 0x2e7f) && !is_between(c, 0x3001, 0x3004) &&
         !is_between(c, 0x3008, 0x3020) && !is_between(c, 0xfe10, 0xfe6f) &&
         !is_between(c, 0xff01, 0xff0f) && !is_between(c, 0x1d000, 0x1d35f) &&
         !is_between(c, 0x1f000, 0x1faff);
}

// The first letter of a name, in the scripts that have capitals
static inline bool is_capital(int32_t c) {
  return is_between(c, 'A', 'Z') || (is_between(c, 0xc0, 0xde) && c != 0xd7) ||
         (is_between(c, 0x100, 0x17f) && c % 2 == 0) || is_between(c, 0x386, 0x3ab) ||
         is_between(c, 0x400, 0x42f);
}

// What may stand before a mark that opens: a space, a bracket, a quote, a dash or another mark
static inline bool may_precede_opening(int32_t c) {
  if (c == 0 || is_space(c) || is_unseen(c)) return true;
  if (c < 0x80) return strchr("*_~|\"'()[]{}-", c) != NULL;
  return c == 0xa1 || c == 0xab || c == 0xad || c == 0xbb || c == 0xbf ||
         is_between(c, 0x200b, 0x2015) || is_between(c, 0x2018, 0x201f) || c == 0x2039 ||
         c == 0x203a || c == 0x2045 || c == 0x2046 || is_between(c, 0x2060, 0x2064) ||
         is_between(c, 0x2768, 0x2775) || is_between(c, 0x27e6, 0x27ef) || c == 0x2e3a ||
         c == 0x2e3b || is_between(c, 0x3008, 0x3011) || is_between(c, 0x3014, 0x301f) ||
         c == 0xff08 || c == 0xff09 || c == 0xff3b || c == 0xff3d || c == 0xff5b || c == 0xff5d;
}

#endif
