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

// The names that are listed, each by a hash of its words
enum { MOST_NAMES = 32 };
typedef struct {
  uint32_t at[MOST_NAMES];
  uint8_t count;
} Names;

typedef struct {
  uint8_t mode, part;
  Names listed;   // for the file
  Names speakers; // for the part
} Place;

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

// Of the words from `from` to `end`, however they are spaced; 0 where there is none.
static inline uint32_t hash_of(const Text *line, uint32_t from, uint32_t end) {
  uint32_t hash = 0;
  bool is_apart = false;
  for (; from < end; from++) {
    int32_t c = line->at[from];
    if (is_space(c)) {
      is_apart = true;
      continue;
    }
    if (!hash) hash = 2166136261u;
    else if (is_apart) hash = (hash ^ ' ') * 16777619u;
    hash = (hash ^ (uint32_t)c) * 16777619u;
    is_apart = false;
  }
  return hash;
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

// The names in `line` from `from` to `end`, commas between, as hashes.
static inline void list_names(Names *names, const Text *line, uint32_t from, uint32_t end) {
  names->count = 0;
  while (from < end && names->count < MOST_NAMES) {
    uint32_t comma = from;
    while (comma < end && line->at[comma] != ',') comma++;
    uint32_t name = hash_of(line, from, comma);
    if (name) names->at[names->count++] = name;
    from = comma + 1;
  }
}

static inline bool is_cue(const Text *line, const Names *names) {
  uint32_t from = lead_length(line), colon = from;
  while (colon < line->size && line->at[colon] != ':' && line->at[colon] != '(') colon++;
  if (at(line, colon) != ':') return false;
  uint32_t rest = skip_spaces(line, colon + 1), name = hash_of(line, from, colon);
  for (uint8_t i = 0; i < names->count; i++)
    if (name == names->at[i])
      return rest == line->size || (line->at[rest] == '(' && is_one_direction(line, rest));
  return false;
}

// Where the setting of `key` in a rule has its value; false where it has no such setting.
static inline bool find_part_setting(const Text *rule, const char *key, uint32_t *from,
                                     uint32_t *end) {
  char word[LONGEST_WORD + 1];
  bool found = false;
  *end = rule->size;
  for (uint32_t i = 0; i < rule->size; i++) {
    if (rule->at[i] != ';') continue;
    uint32_t start = skip_spaces(rule, i + 1), after = read_word(rule, start, word);
    int32_t next = at(rule, after);
    bool ends = after == rule->size || is_space(next) || next == ':' || next == ';';
    if (!ends || !(is_one_of(word, KEYS) || is_one_of(word, GOALS))) continue;
    if (found) {
      *end = i;
      break;
    }
    after = skip_spaces(rule, after);
    *from = at(rule, after) == ':' ? after + 1 : after;
    found = !strcmp(word, key);
  }
  return found;
}

static inline enum Line line_kind(const Text *line, const Place *place) {
  const char *kind;
  if (lead_length(line) == line->size) return BLANK_LINE;
  if (is_rule(line, &kind)) return RULE_LINE;
  if (place->part == NOTES) return ASIDE_LINE;
  if (is_note(line)) return NOTE_LINE;
  if (place->mode == SETTINGS) return has_key(line, false) ? SETTING_LINE : UNREADABLE_LINE;
  if (place->mode == OPENING && has_key(line, true))
    return has_key(line, false) ? SETTING_LINE : UNREADABLE_LINE;
  if (place->part == TAKES) return TAKE_LINE;
  return is_cue(line, &place->speakers) ? CUE_LINE : SPEECH_LINE;
}

// Takes in what a setting's line or a rule says of the lines after it.
static inline void enter(Place *place, const Text *line, enum Line kind) {
  char word[LONGEST_WORD + 1];
  const char *part;
  uint32_t from, end;
  if (kind == SETTING_LINE || kind == UNREADABLE_LINE) place->mode = SETTINGS;
  else if (kind != BLANK_LINE || place->mode == SETTINGS)
    if (kind != NOTE_LINE) place->mode = BODY;
  if (kind == SETTING_LINE) {
    end = read_word(line, lead_length(line), word);
    while (line->at[end] != ':') end++;
    if (!strcmp(word, "speaker")) list_names(&place->listed, line, end + 1, line->size);
    place->speakers = place->listed;
  } else if (kind == RULE_LINE) {
    if (is_rule(line, &part) && part)
      place->part = !strcmp(part, "notes") ? NOTES : !strcmp(part, "takes") ? TAKES : SPEECH;
    place->speakers = place->listed;
    if (find_part_setting(line, "speaker", &from, &end))
      list_names(&place->speakers, line, from, end);
  }
}

#endif
