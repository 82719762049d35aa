"""Sentences that only announce what comes next, and hedges in front of what is meant."""

import re
from functools import lru_cache
from itertools import islice

from saywright.language.english.spot import lowered

_I_WANT = (
    r"(?:i (?:want|need|have|wanted) to|i(?: would|'d) like to|i've got to|i(?:'m| am) going to"
    r"|i'm gonna|i'll|i will|i must|let me|allow me to)"
)
_I_WILL = rf"(?:{_I_WANT}|can i|may i|could i)"
_YOU = r"(?: you(?: all)?)?"
_SOMETHING = (
    r"(?:something(?: else| important| now)?|(?:this|one|a) (?:thing|secret|story|little story)"
    r"|(?:a|my|the|one|another) (?:\w+ )?(?:story|secret|confession)|the (?:whole )?truth|this"
    r"|what happened(?: next| then| that (?:day|night|morning|evening))?"
    r"|how it (?:happened|was|went|is)"
    r"|how it all (?:began|started)|why|about (?:it|that|this|something)"
    r"|about (?:my|the|a|our|his|her) (?:\w+ )?\w+)"
)
_VERY = r"(?:(?:perfectly|absolutely|completely|totally|very|quite|crystal) )?"
# "that" as in "that the salt was wet", not as in "that story"; a second one would be left alone
_OPENS_CLAUSE = (
    r"(?=,? (?:i|you|he|she|it|we|they|there|the|an?|my|your|his|her|our|their|its|this|these"
    r"|those|no|nobody|nothing|everyone|everybody|everything|someone|somebody|something"
    r"|when|if|what|who|not|most|some|many|every)\b(?!.*\b(?:and|but|or) that\b))"
)
_CLAUSE = rf"(?: that|(?= (?:i|you|he|she|we|they|there)\b)){_OPENS_CLAUSE}"
# after the comma comes what is said, no more of the lead itself and no one who is spoken to
_STOP = (
    r"[,:](?! (?:but|and|or|if|when|once|for|at|until|till|because|since|as|so|not|never|again"
    r"|ever|any|even|tomorrow|later|tonight|now|then|some ?day|one day|about|please|will|would)\b)"
    r"(?! (?:my|you|old|dear) \w+\W*\Z)"
)
_WHOLE = (
    rf"{_I_WILL}(?: just| also| first)? (?:tell{_YOU}|share|say|confess|explain)"
    rf"(?: (?:to|with) you)? {_SOMETHING}",
    r"(?:let me|allow me to|i(?: will|'ll| want to| can|(?:'d| would) like to)) explain",
    r"let me (?:start|begin)(?: at the (?:very )?beginning| with this| by telling you \w+)?",
    r"let me (?:tell|put it|say) (?:you )?(?:like )?this(?: way)?",
    r"(?:here's|here is) (?:the|my) (?:thing|deal|story|truth|point|problem|trouble|funny part)",
    r"(?:here's|here is) what (?:happened|i (?:mean|think|know))",
    r"(?:here's|here is) how it (?:went|goes|happened|was)",
    r"(?:the|my) (?:thing|point|truth|fact) is(?: this)?",
    r"(?:do )?you know what|you know something|guess what|you want to know something",
    r"(?:do )?you know what (?:happened|(?:i|he|she|they) (?:did|said))(?: then| next)?\s*\?",
    r"this is (?:exactly )?(?:what happened|how it (?:happened|went|was|began|started))",
    r"it (?:happened|went|goes|was|started|began) like this",
    r"(?:the|my) story (?:goes|begins|starts) like this|this is (?:my|the|a|our) (?:true )?story",
    r"this is (?:the|a) story (?:of|about) (?:\w+ ){0,4}\w+",
    r"(?:i have|i've got|i've|there's|there is) (?:something|a story|a confession|one thing"
    r"|(?:some|one) (?:more )?things?)"
    rf"(?: (?:that )?(?:i (?:have|need|want|must)(?: to)?|to|you should|you need to|for)"
    rf"(?: (?:tell{_YOU}|say|share|confess|make|know|you))?(?: to you)?)?",
    r"listen to (?:this|me)|get this|hear this|picture this|imagine this",
    r"(?:where|how) (?:do|should|shall|can) i"
    r" (?:start|begin|explain|(?:put|say|explain) (?:this|it))",
    r"i (?:do not|don't) (?:really )?know (?:where|how) to"
    r" (?:start|begin|(?:say|put|explain) this)",
    r"you(?: won't|'ll never| will never| will not|'re not going to| are not going to) believe"
    r" (?:this|it|what happened(?: next| then)?)",
    r"(?:that's|it's|it is|it was) a (?:long|funny|strange|true|good|sad) story",
    r"(?:funny|true) story|i(?:'ll| will) be honest(?: with you)?",
    r"what i(?:'m trying| am trying| want| mean)(?: to say)? is this",
    r"(?:i'll|i will) tell you what",
    r"(?:i(?:'m| am) not (?:going to|gonna)|i (?:won't|will not)) lie to you",
    rf"let me be {_VERY}(?:clear|honest|frank|blunt|plain)(?: with you)?",
)
_HEDGES = (
    rf"{_I_WANT}(?: just)? (?:start|begin)(?: off)? by (?:saying|telling you){_CLAUSE}",
    rf"first of all,? {_I_WANT}(?: just)? (?:say|tell you){_CLAUSE}",
    rf"i (?:just )?(?:want|need|have) to tell you that{_OPENS_CLAUSE}",
    r"it(?:'s| is) (?:also )?(?:important to (?:note|mention|point out)"
    rf"|worth (?:noting|mentioning)) that{_OPENS_CLAUSE}",
    rf"let me be {_VERY}(?:clear|honest|frank|blunt|plain)(?: with you)?{_STOP}",
    rf"(?:i(?:'m| am) not (?:going to|gonna)|i (?:won't|will not)) lie to you{_STOP}",
    rf"(?:i'll|i will) tell you (?:something|one thing|what|this){_STOP}",
    r"(?:i don't know,? )?(?:but )?maybe (?:it's just me|i'm wrong|i'm mad|i'm crazy),? but",
    r"i (?:could|may|might) be wrong,? but",
    r"(?:i (?:guess|suppose|think) )?(?:what|all) i(?:'m| am) (?:trying to say|saying) is"
    r"(?: that|,)?",
    r"all i can say is(?: that|,)?|what i (?:want|mean) to say is(?: that|,)?",
    r"i don't know(?: how to (?:say|put|explain) (?:this|it)| if this makes (?:any )?sense)?,? but",
    r"i(?:'m| am) not (?:really )?(?:sure|certain)"
    r"(?: how to (?:say|put|explain) (?:this|it))?,? but",
    r"(?:it's|it is|this is) (?:hard|difficult|not easy) to (?:explain|say|describe|put into words)"
    r",? but",
    r"(?:i know )?(?:it|this|that) (?:may|might|will|must)? ?(?:sounds?|seems?) "
    r"(?:a (?:bit|little) )?(?:strange|stupid|silly|crazy|mad|odd|weird|foolish),? but",
    r"(?:don't get me wrong|correct me if i'm wrong|with (?:all )?(?:due )?respect),(?: but)?",
    r"i(?:'m| am) not (?:going to|gonna) lie,",
    r"(?:i just |i )?(?:want|wanted) to say that|i(?:'d| would) (?:just )?like to say that",
    r"i (?:have to|must) (?:say|admit|confess)(?:,| that)",
    r"(?:the|my) (?:thing|point|fact|fact of the matter|(?:honest |simple |plain )?truth) is"
    r"(?:,| that)",
    r"(?:it goes without saying|you have to understand|what you have to understand is) that",
    r"(?:here's|here is) (?:the|my) (?:thing|point|problem)[,:]",
    r"(?:to make a )?long story short,|let me tell you,",
)
_LEAD = r"\W*(?:(?:and|but|so|well|now|okay|ok|look|oh|anyway|right|then)\b[,\s]*){0,2}"
_LONGEST = 160  # code points; what only announces is short
_WORD = re.compile(r"\w+")
_FEWEST_WORDS = 2


@lru_cache(maxsize=1)
def _is_whole() -> re.Pattern[str]:
    """Made at first use, as it takes longer than all else here."""
    return re.compile(rf"{_LEAD}(?:{'|'.join(_WHOLE)})[\s.!?…:]*\Z")


@lru_cache(maxsize=1)
def _opens() -> re.Pattern[str]:
    return re.compile(rf"{_LEAD}(?P<hedge>(?:{'|'.join(_HEDGES)}))[\s]+(?=\w)")


def announces(text: str) -> bool:
    """Whether the sentence says no more than that something will be said."""
    return len(text) <= _LONGEST and bool(_is_whole().match(lowered(text)))


def hedge(text: str) -> tuple[int, int] | None:
    """Where a hedge stands that opens the sentence, without the blank after it.

    None where there is none, or where fewer than two words come after it.
    """
    found = _opens().match(lowered(text[:_LONGEST]))
    if not found:
        return None
    rest = islice(_WORD.finditer(text, found.end()), _FEWEST_WORDS)
    return found.span("hedge") if sum(1 for _ in rest) == _FEWEST_WORDS else None
