"""Classes of English words that tell what can be trimmed of a sentence."""


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


JOINING = _words("and but or so yet nor")
NOMINATIVE = _words(
    "i he she we they you it there this that these those nobody everybody somebody everyone "
    "someone nothing everything something"
)
POSSESSIVES = _words("my your his her our their its")
PRONOUNS = _words("i you he she it we they")
OPENING_A_PHRASE = _words(
    "in on at by from for with without before after during until till through under beneath "
    "beside between behind against among across above below near since despite when while if "
    "because although though once whenever as unless wherever where"
)
SUBORDINATORS = _words(
    "because although though when while if until unless before after since as whenever where "
    "wherever once whereas"
)
RELATIVES = _words("who which whose whom where")
ASKING = _words("who which whose whom what how why whether")
AMOUNTS = _words("some many most all both none one two three four five half few several each any")
BEFORE_RELATIVES = _words("in of for from at on to by with after during through about under")
NO_ANTECEDENT = _words(
    "those anyone anybody anything everyone everybody everything someone somebody something "
    "nobody nothing all people person one ones he she they him them it me us you i we any "
    "thing things way reason that this these what"
)
POINTING_BACK = _words(
    "it its itself that this they them their these those he him his she her one ones so "
    "such same both neither either other another"
)
INTENSIFIERS = _words("very so really much far too many long")
QUALITIES = _words(
    "bald bare bashful battered bitter bleak blunt bony brackish brash brittle bulky bumpy chalky "
    "cheeky chilly chubby clammy clumsy coarse costly crabby craggy cranky creaky crisp crude "
    "cruel crumbly curly damp dark deaf deft dim dingy drab dreary drowsy dull dusty eerie faded "
    "faint feeble fierce filthy flabby flat flimsy foggy foul frail frosty fussy gaudy gaunt "
    "ghostly giddy glassy gloomy glossy grainy grassy gravelly greasy greedy grim grimy gritty "
    "grubby gruff grumpy gusty hairy hasty hazy hoarse hollow humble husky icy itchy jagged jolly "
    "jumpy lame lanky lazy leaky leathery lively lonely loud lovely lukewarm lumpy mad meek mellow "
    "mild milky misty moist mouldy muddy mute naked nasty nervous noisy numb oily pale patchy "
    "plain plump pompous prickly pudgy puny ragged rainy rickety rocky rotten rough rude rusty "
    "salty sandy savage scruffy shabby shaggy shaky shallow sharp shiny shrill silky silly skinny "
    "slack sleek sleepy slender slick slim slimy slippery sly smelly smoky smooth smug snowy snug "
    "soggy solemn sombre sour spiky splendid spotty squat stale stark steep stern sticky stiff "
    "stormy stout strict stubborn sturdy sullen sulky sunny swift tall tame tangy tarry tart tatty "
    "tender tense thick thorny tidy timid tiny tough ugly vain vast wan weary weird wet wicked "
    "wild wily windy wiry wise witty wobbly woody woolly worn wry yellow"
)
NO_QUALITY = _words(
    "first second third last next only other same own former latter late past future near mere "
    "fake false alleged supposed imaginary few little many much more most less least such no "
    "several half new ex-"
)
OPENINGS = (
    "well",
    "you know",
    "you see",
    "i mean",
    "oh",
    "look",
    "listen",
    "okay",
    "ok",
    "right",
    "anyway",
    "anyways",
    "honestly",
    "frankly",
    "basically",
    "obviously",
    "actually",
    "naturally",
    "of course",
    "in fact",
    "mind you",
    "believe me",
    "trust me",
    "to be honest",
    "to be fair",
    "to tell the truth",
    "to tell you the truth",
    "as a matter of fact",
    "if you ask me",
    "as i said",
    "as you know",
    "let's face it",
    "truth be told",
    "needless to say",
    "after all",
    "by the way",
    "as always",
    "as usual",
    "certainly",
    "luckily",
    "fortunately",
    "sadly",
    "unfortunately",
    "strangely enough",
    "oddly enough",
    "funnily enough",
)
ASIDES = (
    "you know",
    "you see",
    "i suppose",
    "i guess",
    "i think",
    "i believe",
    "i imagine",
    "i must say",
    "i have to say",
    "i should say",
    "of course",
    "mind you",
    "to be honest",
    "to be fair",
    "to tell the truth",
    "to tell you the truth",
    "after all",
    "as you know",
    "as i said",
    "as i say",
    "as always",
    "as usual",
    "by the way",
    "i dare say",
    "for that matter",
    "so to speak",
    "if you like",
    "if you ask me",
    "believe me",
    "in fact",
    "in a way",
    "as it were",
    "as a matter of fact",
    "truth be told",
    "however",
    "though",
    "naturally",
    "obviously",
    "honestly",
    "frankly",
    "certainly",
    "really",
    "actually",
    "anyway",
)
NEGATIONS = _words(
    "not n't no never nobody nothing none neither nor nowhere without hardly scarcely barely cannot"
)
NUMBERS = _words(
    "two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred "
    "thousand million dozen half twice"
)
TIMES = _words(
    "day days week weeks month months year years hour hours minute minutes second seconds moment "
    "time times night nights morning mornings evening afternoon summer winter spring autumn dawn "
    "mile miles metre metres way bit lot kind sort while ago later today tomorrow yesterday"
)
ADDRESSING = _words(
    "friend friends love dear darling boy boys girl girls lord lady sir madam god heart brothers "
    "sisters fellow master mistress captain doctor judge officer"
)
FOCUS = _words("only just not n't even mainly mostly simply partly never")
CORRECTING = _words("rather mean sorry correction actually")
CONCEDING = _words("although though whereas")
# What is seen or kept doing something, or is something, is not told without it.
NEEDING_MORE = _words(
    "be see hear feel watch notice catch find smell leave keep spend like hate love enjoy remember "
    "imagine"
)
LIKE_PREPOSITIONS = _words(
    "including according regarding concerning following considering excluding being during "
    "nothing something anything everything morning evening starting beginning depending "
    "assuming providing supposing granting pending notwithstanding barring ring king string spring "
    "thing"
)
