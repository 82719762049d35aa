"""English: the tense of a sentence, whom it is about, and its finite verbs."""
