"""Classes of English words that tell a filler from the same words in earnest."""


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


HESITATIONS = _words("um umm uh uhh uhm er erm")
OPENERS = _words("and but so because cause 'cause or then oh yeah no though")
SUBJECTS = _words(
    "i you he she it we they there i'm you're he's she's it's we're they're there's that's i've "
    "you've we've they've i'd you'd he'd she'd we'd they'd i'll you'll he'll she'll we'll they'll"
)
PRONOUNS = _words("i you he she it we they")
BE = _words(
    "am is are was were be been being i'm you're he's she's it's we're they're that's there's "
    "isn't wasn't aren't weren't"
)
AUXILIARIES = BE | _words(
    "do does did have has had can could will would shall should may might must don't doesn't "
    "didn't haven't hasn't hadn't can't couldn't won't wouldn't shouldn't i've you've we've "
    "they've i'd you'd he'd she'd we'd they'd i'll you'll he'll she'll we'll they'll"
)
PREPOSITIONS = _words(
    "of in on at to for with by from into about until till after before over under through"
)
UNTIL = _words("for with about until till at before after")
ARTICLES = _words("a an the my your his her our their this that these those some any")
OPEN_ENDED = (
    OPENERS
    | AUXILIARIES
    | PREPOSITIONS
    | ARTICLES
    | PRONOUNS
    | _words("not just who which when if")
)
INTENSIFIERS = _words("really very super totally completely absolutely extremely")
SPEAKING = _words("say says said saying think thinks thought goes went tell told asked answered")
NEGATIONS = _words("not isn't wasn't aren't weren't don't doesn't didn't never")
CONDITIONS = _words("if when once whenever unless after until")
INTERJECTIONS = _words("oh no yeah yes yep what whoa hey well okay ok wow why how hell hi ah god")
REPLIES = _words("yes yeah yep nope oh okay ok")
SPECIES = ARTICLES | _words(
    "what which whatever every each all no one same other another different new right wrong only "
    "best worst better certain my many most first second third two three several various special "
    "strange odd funny rare old good bad such various of"
)
HELPED = _words("you him her them me us my your his their our the those these that this heart")
SENSES = _words("feel feels felt look looks looked seem seems seemed sound sounds sounded get got")
NUMBERS = _words("two three four five six seven eight nine ten twelve twenty thirty forty fifty")
UNITS = _words(
    "second minute hour day week month year mile couple few hundred thousand million dozen"
)
PLAIN_VERBS = _words(
    "be go get have make take come say tell keep give find put let become bring know see hear sit"
)
GUESSING = BE | _words(
    "have has had got having i've we've you've they've need needs think guess maybe perhaps "
    "probably"
)
TELLING = _words("say says said saying tell tells told telling ask asks asked mean means meant")
CORRECTIONS = _words("unless except not mostly technically")
OBJECTS = _words("me you him her it us them")
QUESTION_WORDS = _words("what who where why how which whose")
QUESTIONS = QUESTION_WORDS | _words(
    "do does did is are was were have has had can could will would shall should may might must "
    "when am isn't aren't wasn't don't doesn't didn't won't can't"
)
