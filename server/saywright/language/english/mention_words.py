"""The words by which `mentions` knows people, groups and things, and what may stand for them."""

WOMEN = frozenset(
    """
    woman girl mother sister daughter wife aunt auntie grandmother gran granny mum mom mama mam
    lady widow queen niece bride waitress landlady midwife goddess madam godmother stepmother
    actress hostess girlfriend nun maid
    """.split()
)
MEN = frozenset(
    """
    man boy father brother son husband uncle grandfather grandpa dad papa king priest gentleman
    lad fellow nephew groom landlord widower godfather stepfather monk bloke guy boyfriend sir
    fisherman ferryman postman policeman watchman
    """.split()
)
PEOPLE = frozenset(
    """
    child baby friend neighbour neighbor teacher doctor nurse master captain mate boss owner
    inspector keeper stranger guest soldier sailor driver waiter singer player parent cousin twin
    student pupil clerk judge lawyer officer mayor harbourmaster master pilot cook baker smith
    butcher colleague partner lover enemy customer visitor passenger prisoner patient president
    minister leader member manager director actor writer author artist speaker reader person kid
    somebody someone anybody anyone everybody everyone nobody whoever other one
    """.split()
)
CREATURES = frozenset(
    "baby child dog puppy cat kitten kitty horse mule donkey goat bird gull hen ox pup".split()
)
VESSELS = frozenset("boat ship ferry tug barge trawler schooner yacht".split())
CALLED_SHE = CREATURES | VESSELS
GROUPS = frozenset(
    """
    people police family crew company council team class crowd staff parents children men women
    couple pair band choir gang audience
    government army public jury committee party
    """.split()
)
ANYBODY = frozenset("everybody everyone somebody someone anybody anyone nobody whoever".split())
EITHER_NUMBER = GROUPS | ANYBODY
IRREGULAR = frozenset("men women children people mice feet teeth geese police folk wives".split())
AGENTS = ("er", "or", "ist", "man", "woman", "ess", "ant", "ian", "ee")
NO_THING = frozenset(
    """
    time times day days night nights year years week weeks hour hours minute minutes morning
    evening moment way ways lot lots kind sort bit thing things once today tomorrow yesterday
    tonight something nothing anything everything rest monday tuesday wednesday thursday friday
    saturday sunday january february march april may june july august september october november
    december
    """.split()
)
SHE = frozenset("she her hers herself".split())
HE = frozenset("he him his himself".split())
THEY = frozenset("they them their theirs themselves".split())
IT = frozenset("it its itself".split())
WHO = frozenset("i you he she it we they me him us them".split())
TO_WHOM = frozenset("her him them it".split())
BREAKS = frozenset(", ; : - -- — – and but or when because that who which if as while so".split())
POINTING = frozenset("this that these those".split())
ADJECTIVES = frozenset("jc")
AFTER_IT_IS_EMPTY = frozenset(
    """
    rain rains rained raining snow snowed snowing seem seems seemed turns turned takes took
    happens happened appears appeared
    """.split()
)
EMPTY_AFTER_IT_IS = frozenset(
    """
    late early time dark cold hot warm light true possible hard easy said clear better best worth
    raining snowing ten nine eight seven six five four three two one noon midnight morning night
    evening monday tuesday wednesday thursday friday saturday sunday winter summer spring autumn
    me you him her us them i like as no when because enough
    """.split()
)
BEFORE_THAT = frozenset("after before since like of with for about from than to by".split())
THERE = frozenset(("there",))
OF_THEM = frozenset("one ones another none some both others".split())
AT_A_PLACE = frozenset(
    "in on at to into onto from by near up down behind under over across upon inside along".split()
)
ABOUT = frozenset("who which that whose like with".split())
IN_NONE = frozenset("no any every each some".split())
OPENERS = frozenset("and but so because if when maybe perhaps well".split())
PASSED_OVER = frozenset(("so", "too", "very", "n't", "not", "a", "the"))
BE = frozenset("is was 's be been 're are were".split())


def singular(word: str) -> str:
    if word in ("men", "women"):
        return word[:-2] + "an"
    if word == "children":
        return "child"
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("sses", "shes", "ches", "xes")):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) else word
