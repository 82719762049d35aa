// What a line is, told from the whole of it and from where in the file it stands.
#ifndef SAY_LINE_H
#define SAY_LINE_H

#include "text.h"

enum Mode { OPENING, SETTINGS, BODY };
enum Part { SPEECH, NOTES, TAKES };
enum Line {
  BLANK_LINE,
  NOTE_LINE,
  SETTING_LINE,
  UNREADABLE_LINE,
  RULE_LINE,
  ASIDE_LINE,
  TAKE_LINE,
  CUE_LINE,
  SPEECH_LINE,
};

static const char *const KINDS[] = {"piece", "draft", "notes", "takes", NULL};
static const char *const KEYS[] = {
    "title", "by",       "to",    "rights", "content", "speaker",   "slot", "margin",
    "pace",  "language", "tense", "person", "form",    "leave-out", NULL,
};
static const char *const GOALS[] = {"timer", "count", "alphabet", NULL};

enum { LONGEST_WORD = 16 };

static inline uint32_t skip_spaces(const Text *line, uint32_t from) {
  while (from < line->size && is_space(line->at[from])) from++;
  return from;
}

static inline uint32_t lead_length(const Text *line) {
  uint32_t from = 0;
  while (from < line->size && is_lead(line->at[from])) from++;
  return from;
}

// The letters and hyphens at `from`, in small letters; empty where they are too many.
static inline uint32_t read_word(const Text *line, uint32_t from, char *word) {
  uint32_t length = 0;
  while (is_ascii_letter(at(line, from + length)) || at(line, from + length) == '-') {
    if (length < LONGEST_WORD) word[length] = (char)lower(at(line, from + length));
    length++;
  }
  word[length <= LONGEST_WORD ? length : 0] = 0;
  return from + length;
}

static inline bool is_one_of(const char *word, const char *const *known) {
  for (; *known; known++)
    if (!strcmp(word, *known)) return true;
  return false;
}

static inline int least(int a, int b) { return a < b ? a : b; }

// How many letters are left out, put in, changed or swapped with a neighbour.
static int slips(const char *word, const char *known) {
  int rows[LONGEST_WORD + 1][LONGEST_WORD + 1];
  int height = (int)strlen(word), width = (int)strlen(known);
  for (int i = 0; i <= height; i++) {
    for (int j = 0; j <= width; j++) {
      if (!i || !j) {
        rows[i][j] = i + j;
        continue;
      }
      int cost = least(rows[i - 1][j], rows[i][j - 1]) + 1;
      cost = least(cost, rows[i - 1][j - 1] + (word[i - 1] != known[j - 1]));
      if (i > 1 && j > 1 && word[i - 1] == known[j - 2] && word[i - 2] == known[j - 1])
        cost = least(cost, rows[i - 2][j - 2] + 1);
      rows[i][j] = cost;
    }
  }
  return rows[height][width];
}

// The known word that `word` was most likely meant to be, or NULL.
static inline const char *nearest(const char *word, const char *const *known) {
  const char *best = NULL;
  int fewest = 3;
  for (; *known; known++) {
    int length = (int)strlen(*known), forgiven = length < 3 ? 0 : length < 5 ? 1 : 2;
    int count = slips(word, *known);
    if (count <= forgiven && count < fewest) {
      fewest = count;
      best = *known;
    }
  }
  return best;
}

static inline bool is_note(const Text *line) {
  uint32_t hash = lead_length(line);
  return at(line, hash) == '#' && (hash + 1 == line->size || is_space(line->at[hash + 1]));
}

// Puts the kind that a rule names into `kind`, or NULL where it names none.
static inline bool is_rule(const Text *line, const char **kind) {
  char word[LONGEST_WORD + 1];
  uint32_t from = lead_length(line), dashes = from;
  while (at(line, from) == '-') from++;
  if (from < dashes + 4) return false;
  from = skip_spaces(line, from);
  *kind = NULL;
  if (from == line->size) return true;
  uint32_t end = read_word(line, from, word);
  if (strchr(word, '-') || !(*kind = nearest(word, KINDS))) return false;
  end = skip_spaces(line, end);
  return end == line->size || line->at[end] == ':' || line->at[end] == ';';
}

static inline bool has_key(const Text *line, bool or_nearly) {
  char word[LONGEST_WORD + 1];
  uint32_t end = read_word(line, lead_length(line), word);
  while (at(line, end) == ' ' || at(line, end) == '\t') end++;
  if (at(line, end) != ':') return false;
  return or_nearly ? nearest(word, KEYS) != NULL : is_one_of(word, KEYS);
}

// Whether `line` from its opening bracket on is one direction and nothing else.
static inline bool is_one_direction(const Text *line, uint32_t from) {
  int depth = 0;
  for (; from < line->size; from++) {
    int32_t c = line->at[from];
    if (c == '\\') from++;
    else if (c == '(') depth++;
    else if (c == ')' && --depth == 0) return skip_spaces(line, from + 1) == line->size;
  }
  return false;
}

static inline bool is_joining_word(const Text *line, uint32_t from, uint32_t end) {
  static const char *const JOINING[] = {"of", "the", "de", "von", NULL};
  char word[4] = {0};
  if (end - from > 3) return false;
  for (uint32_t i = from; i < end; i++) word[i - from] = (char)line->at[i];
  return is_one_of(word, JOINING);
}

// Up to three words that look like a name's, a colon, and perhaps a direction: only the server
// knows the names that are listed.
static inline bool is_cue(const Text *line) {
  uint32_t from = lead_length(line);
  for (int words = 0; words < 3; words++) {
    uint32_t start = from;
    while (is_word(at(line, from)) || is_between(at(line, from), 0x300, 0x36f) ||
           (from > start && (at(line, from) == '\'' || at(line, from) == 0x2019 ||
                             at(line, from) == '.' || at(line, from) == '-' || at(line, from) == '_')))
      from++;
    bool is_name = is_capital(at(line, start)) || (words && is_joining_word(line, start, from));
    if (from == start || !is_name) return false;
    while (at(line, from) == ' ' || at(line, from) == '\t') from++;
    if (at(line, from) != ':') continue;
    from = skip_spaces(line, from + 1);
    return from == line->size || (line->at[from] == '(' && is_one_direction(line, from));
  }
  return false;
}

static inline enum Line line_kind(const Text *line, uint8_t mode, uint8_t part) {
  const char *kind;
  if (lead_length(line) == line->size) return BLANK_LINE;
  if (is_rule(line, &kind)) return RULE_LINE;
  if (part == NOTES) return ASIDE_LINE;
  if (is_note(line)) return NOTE_LINE;
  if (mode == SETTINGS) return has_key(line, false) ? SETTING_LINE : UNREADABLE_LINE;
  if (mode == OPENING && has_key(line, true))
    return has_key(line, false) ? SETTING_LINE : UNREADABLE_LINE;
  if (part == TAKES) return TAKE_LINE;
  return is_cue(line) ? CUE_LINE : SPEECH_LINE;
}

static inline uint8_t part_after(const Text *rule, uint8_t part) {
  const char *kind;
  if (!is_rule(rule, &kind) || !kind) return part;
  return !strcmp(kind, "notes") ? NOTES : !strcmp(kind, "takes") ? TAKES : SPEECH;
}

#endif
