"""The words for each kind of work, in one table: what covers its danger, and what says that it is done.

Patterns are looked for between word boundaries, small and capital letters alike. Common practice, no source.
"""

from __future__ import annotations

import re
from functools import lru_cache

from msgspec import Struct

_VEHICLE = "(?:vehicle|truck|van|car|trailer|chassis)"
_BELOW = "(?:under|underneath|below|beneath)"
_FUEL = "(?:fuel|petrol|diesel|gas)"
_NO_PLACE = (
    r" (?:the )?(?:pedal|load|pressure|power|hand|tension|torque|way|tube|jack|nut|bolt|head|plate)s?\b"
)
_LIMBS = r" (?:the |your )?(?:feet|foot|toes?|hands?|fingers?|legs?|arms?|backs?)\b"

Words = tuple[str, ...]


class Kind(Struct, frozen=True):
    """One kind of work, as it stands in `does`."""

    phrase: str
    """What a step does that is of this kind."""
    danger: str
    """What a hazard message that covers it speaks of."""
    covered: Words
    """What stands in such a message."""
    said: Words
    """What a sentence of the step has in it that does this."""
    but: Words = ()
    """What looks like it and isn't."""
    by_tool: Words = ()
    """The tools and consumables that nobody takes for anything else."""
    or_else: Words = ()
    """Kinds that the same words may mean as well: naming one of them is enough."""

    def covered_by(self, messages: str) -> bool:
        """Whether hazard messages speak of its danger."""
        return bool(pattern(self.covered).search(messages))

    def said_in(self, said: str, things: str) -> str:
        """The words by which a step does this, in what its sentences say is done or in its tools; empty if none do."""
        found = pattern(self.said).search(said)
        if found and self.but:
            found = pattern(self.said).search(pattern(self.but).sub(" ", said))
        found = found or (pattern(self.by_tool).search(things) if self.by_tool else None)
        return found[0] if found else ""


KINDS: dict[str, Kind] = {
    "lifts": Kind(
        "lifts", "what may fall, slip off the jack or crush",
        covered=(
            r"fall\w*", r"crush\w*", r"jack\w*", r"hoist\w*", "trolley", r"drop\w*", "tip(?:s|ped|ping)?",
            r"slip\w*", r"lift\w*", r"sling\w*", r"heav\w+",
        ),
        said=(
            "jack(?:ed|ing)", "jacks? (?:it|up|under|lifts?|takes|raises|carries|the (?!nuts?))",
            "(?:by|on) (?:a |the |its (?:own )?)?(?:trolley )?jack", "hoist(?:s|ed|ing)?", "lift(?:s|ed|ing)?",
            "raise[sd]? (?:it|the|one|both|each|until|by)",
            r"(?:put|set|rests?|stand it|goes|lower\w*) [^.;]{0,30}on (?:its |the )?(?:axle )?stands",
            f"stands? (?:go |goes |stand |set )?under (?:the )?(?:frame|rails?|sills?|{_VEHICLE})",
        ),
        but=(
            "jack nuts?", "(?:to|may) lift",
            "lift(?:s|ed|ing)? (?:the |a |its |out |off )*(?:cap|cover|lid|pawl|lever|carpet|mat|boot|flap|needle)s?",
            "lift(?:s|ed|ing)? (?:the |a |its |out |off )*(?:edge|clip|shoe|piston|rod|valve|lock|tab|seal|cushion)s?",
            "lift(?:s|ed|ing)? (?:the |a |its |out |off )*(?:seat|drum|pad|caliper)s?",
        ),
        or_else=("lowers", "under"),
    ),
    "lowers": Kind(
        "lowers", "what may fall or crush on its way down",
        covered=(
            r"fall\w*", r"crush\w*", r"jack\w*", r"hoist\w*", "trolley", r"drop\w*", "tip(?:s|ped|ping)?",
            r"slip\w*", r"lift\w*", r"sling\w*", r"heav\w+", r"lower\w*", "com(?:es|ing) down",
        ),
        said=(
            "lower(?:s|ed|ing)? (?:it|onto|on|slowly|the (?:axle|jack|hoist|vehicle|rear|front|frame|spring|tank))",
            r"(?:let|set|bring|jack|hoist|come|comes|coming|brought) (?:it |the \w+ )?down",
            "down (?:off|from) (?:the |its )?(?:stands?|jack|hoist)",
            "down on(?:to)? (?:its|the) (?:wheels|floor|trolley)",
        ),
        or_else=("lifts",),
    ),
    "under": Kind(
        "goes under a vehicle", "what stands over whoever is under it: that it falls, rolls or crushes",
        covered=(
            f"under(?!{_NO_PLACE})", "over you", "overhead", r"fall\w*", f"crush(?:es|ed|ing)?(?!{_LIMBS})",
        ),
        said=(
            rf"(?:lie|lies|lying|crawl\w*|creep\w*|go|goes|reach\w*) (?:\w+ )?{_BELOW} (?:it|(?:the |a )?{_VEHICLE})",
            "from (?:below|underneath)",
        ),
        by_tool=("creeper",),
    ),
    "drives": Kind(
        "drives", "what happens when it rolls or doesn't stop: the road, the brakes, who stands in the way",
        covered=(
            r"roll\w*", "road", r"brak\w+", "run over", "runs over", "driv(?:e|es|ing)", r"spin\w*",
            r"skid\w*", "mov(?:es|ing)", "traffic", "stops?",
        ),
        said=(
            "driv(?:e|es|en|ing) (?:it|slowly|straight|round|over|up|down|away|again|on (?:the road|private))",
            f"driv(?:e|es|en|ing) the {_VEHICLE}", r"road test\w*", r"test drive\w*", "walking pace", "roll test",
        ),
        but=("driv(?:e|es|en|ing) (?:it|them) (?:out|in|on|home|off)",),
    ),
    "cuts": Kind(
        "cuts", "the disc, blade or bit and what flies off it",
        covered=(
            "discs?", "blades?", "saws?", "sparks?", "cut(?:s|ting|ter)?", "chips?", "swarf", "shears?",
            "edges?", r"drill\w*", "bits?", r"reamer\w*",
        ),
        said=(
            "cuts?", "saw(?:s|n|ed)", "drills?", "drilled (?:out|to|through|off|in)", "ream(?:s|ed)?",
        ),
        but=(
            "cut (?:ends?|faces?|legs?|surfaces?|sides?|parts?)", "drill (?:gauge|size|list|table)s?",
            "cuts? (?:the |a )?(?:cable )?(?:ties?|gaskets?|card|paper|tape|fluid|edge|oil)",
        ),
        by_tool=(
            "cutting discs?", "cut-off (?:saw|disc|wheel)", "plasma cutter", "hole saws?", "drill press",
            "angle grinder", "grinder",
        ),
        or_else=("grinds",),
    ),
    "grinds": Kind(
        "grinds", "the disc and the sparks and grit that fly off it",
        covered=("discs?", "wheel", "sparks?", "grit", "dust", r"grind\w*", "bursts?"),
        said=(
            "grinds?", "ground (?:flush|off|back|away|smooth|down|out|to bare)", r"linish\w*",
            "flap discs?",
        ),
        by_tool=(
            "(?:angle |bench |die )?grinder", "grinding (?:discs?|wheels?)", "flap (?:discs?|wheels?)",
            "linisher",
        ),
        or_else=("cuts",),
    ),
    "welds": Kind(
        "welds", "the arc",
        covered=("arc", "weld(?:er|ing)?", "rod holder"),
        said=(
            "welds? (?:it|the|them|on|up|in|along|one|each|both|first|round|all|to)",
            "tacks? (?:it|the|them|with|at|in|on|each|both)", "tacked (?:in place|on|up|together)",
            r"(?:two|three|four|six|eight|\d+) tacks", "strike the arc", "(?:first|next|last|each) run (?:of|along|on)",
        ),
        but=("(?:the|its|these|each|your|no) tacks?",),
    ),
    "heats": Kind(
        "heats", "burns, or what stays hot",
        covered=(r"burn\w*", "hot", "flames?", r"torch\w*", r"scald\w*", r"heat\w*"),
        said=(
            r"(?:gas|heating|cutting|blow) ?torch\w*", "blow ?lamp",
            "(?:re|pre)?heat(?:s|ed|ing)? (?:it|the|them|up|gently|round|with|slowly|until)", "preheated",
            "with (?:a |the )?flame", "hot.air gun", "induction heater",
        ),
        by_tool=(
            "(?:gas|heating|cutting|blow) ?torch(?:es)?", "blow ?lamp", "heat gun", "hot.air gun", r"oxy\S*",
            "induction heater", "rosebud",
        ),
    ),
    "bleeds": Kind(
        "opens or bleeds a brake line", "brake fluid",
        covered=("(?:brake |hydraulic )?fluids?",),
        said=(
            "bleed(?:s|ing)?", "bled",
            "(?:open(?:s|ed)?|undo|disconnect) (?:the |a |each |both )?(?:brake )?(?:line|hose|pipe|union)s?",
            "brake (?:line|hose|pipe)s? (?:is |are )?(?:off|open|opened|undone|out)",
        ),
        but=("bleed (?:screw|nipple|bottle|valve|hole)s?",),
        by_tool=("bleed (?:bottle|hose|kit|tube)",),
    ),
    "opens-fuel": Kind(
        "opens fuel", "fuel and its vapour",
        covered=(r"fuel\w*", "petrol", "diesel", "gas", "vapours?", r"explo\w+", "fires?"),
        said=(
            "(?:drain|empty|pump|siphon)(?:s|ed|ing)? (?:out )?(?:the )?(?:fuel|petrol|diesel|fuel tank)",
            f"{_FUEL} (?:line|hose|pipe|tank|filter|union)s? (?:off|open|opened|undone|disconnected|drained|emptied)",
            f"(?:undo|open|disconnect)(?:s|ed|ing)? (?:the |each |both )?{_FUEL} (?:line|hose|pipe|union)s?",
        ),
    ),
    "near-fuel": Kind(
        "works near fuel or gas", "fuel, gas or their vapour",
        covered=(r"fuel\w*", "petrol", "diesel", "gas", "vapours?", r"explo\w+", "fires?", "tank"),
        said=(
            "(?:fuel )?tank (?:strap|bolt|mount|guard|cradle|sender|vent|hose|neck|filler|support|bracket)s?",
            "(?:un)?clip(?:s|ped)? (?:the )?fuel (?:line|hose|pipe)s?",
            "tie (?:the )?fuel (?:line|hose|pipe)s? (?:up|back|aside)",
            r"(?:move|swing|shield)(?:s|ed)? (?:the )?(?:tank|fuel \w+)",
            "gas bottles? (?:off|out|shut|carried|changed)",
        ),
        or_else=("opens-fuel",),
    ),
    "frees-spring": Kind(
        "frees a spring", "the spring and what it throws",
        covered=("(?:spring|leaf|leaves)s?",),
        said=(
            "spring (?:clamp|compressor)s?",
            "(?:undo|slacken|loosen|release)s? (?:the |both |all )?(?:old )?(?:U-bolts|centre bolt|spring eyes?)",
            "U-bolts? (?:off|out|undone)", "springs? (?:off|out) (?:with|by|of)",
            "(?:return|shoe) springs? (?:off|out|unhooked)",
            "(?:unhook|take off|free)(?:s|ed)? (?:the )?(?:return |shoe |leaf )?springs?",
        ),
        but=("springs? (?:seat|pad|perch|plate)(?:s|es)?",),
        by_tool=("spring (?:clamp|compressor)s?",),
    ),
    "brake-dust": Kind(
        "handles brake dust", "brake dust",
        covered=("(?:brake )?dust", "asbestos"),
        said=(
            "drums? (?:is |are |comes? )?(?:off|out|removed)",
            "(?:take|pull|draw|wind|slide)s? (?:off )?(?:the |both |each )*(?:brake )?drums?(?: off)?",
            "(?:old )?(?:brake )?shoes (?:off|out)", "brake dust",
        ),
        but=("new drums? off",),
    ),
    "battery": Kind(
        "works on a battery", "the battery: acid, sparks, a short",
        covered=("batter(?:y|ies)", "acid", r"short.circuit\w*", "sparks?"),
        said=(
            "batter(?:y|ies) (?:off|on|out|in|back|disconnected|connected|charged)",
            "(?:dis)?connect(?:s|ed|ing)? (?:the )?battery",
            "battery (?:lead|cable|terminal|post|clamp)s? (?:off|on|undone)",
        ),
        by_tool=("battery charger", "jump leads"),
    ),
    "airbag": Kind(
        "works on an airbag", "the airbag going off",
        covered=("air.?bags?", "pretensioners?", r"inflat\w+"),
        said=("air.?bags?", "pretensioners?"),
        but=("air.?bag (?:lamp|light|warning)s?",),
    ),
    "solvent": Kind(
        "uses a solvent or dye", "the solvent, cleaner or dye",
        covered=(
            "solvents?", "cleaners?", "dyes?", "acetone", "degreaser", "thinners?", "spirit", r"chlorin\w+",
            "phosgene",
        ),
        said=(
            "dye", "dyed", r"degreas\w+", "acetone", "thinners", "white spirit", "solvents?", "panel wipe",
            "(?:brake|parts|contact) cleaner", "with cleaner",
        ),
        by_tool=(
            "dyes?", "degreaser", "acetone", "thinners?", "white spirit", "solvents?", "panel wipe",
            "(?:brake |parts |contact |chlorinated )?cleaner(?: without chlorine)?",
        ),
    ),
}  # fmt: skip
"""Each kind that may stand in `does`, and how it is told."""

HOT = ("welds", "heats", "cuts", "grinds")
"""Kinds of work that may throw sparks or leave something hot."""

_COLD_CUT = (
    r"drill\w*", r"ream\w*", r"hacksaw\w*", r"hand ?saw\w*", "tap(?:ped|ping)?", "knife", "shears", "snips", "lathe",
)  # fmt: skip
_SPARKS = (
    "grinder",
    r"grind\w*",
    "discs?",
    r"torch\w*",
    "plasma",
    "abrasive",
    "sparks?",
    "flame",
    r"weld\w*",
)
_NOT_DONE = re.compile(
    r"\b(?:no|not|none|nothing|nobody|never|don't|doesn't|isn't|aren't|wasn't|before|after|until|without|instead of"
    r"|unless|when)\b(?:(?! by )[^.,;:?!])*",
    re.IGNORECASE,
)


@lru_cache(maxsize=200)
def pattern(words: Words) -> re.Pattern[str]:
    """Any of these words, between word boundaries."""
    return re.compile(rf"(?<![\w-])(?:{'|'.join(words)})(?![\w-])", re.IGNORECASE)


def done(sentence: str) -> str:
    """A sentence without what it says isn't done, or is done before or after."""
    return _NOT_DONE.sub(" ", sentence)


def sparks(text: str) -> bool:
    """Whether cutting as these words have it may throw sparks: a drill, a reamer or a hand saw alone doesn't."""
    return bool(pattern(_SPARKS).search(text)) or not pattern(_COLD_CUT).search(text)
