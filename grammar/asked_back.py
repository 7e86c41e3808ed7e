"""Lines that lack a thing or can mean several, known by their look: what is asked of each."""

from __future__ import annotations

from grammar.slots.substrate import SUBSTRATES

_POINT = r"[a-z]{1,2} ?\d{1,2}"
_NUMBER = r"(\d+|one|two|three|four)"
_SIGN = r"(-|\+|minus|plus)"

_FLOORS = f"{', '.join(SUBSTRATES[:-1])} or {SUBSTRATES[-1]}"
_OLD_COVERING = r"(adhesive|glue|mastic|vinyl|lino|linoleum|floor tiles?|floor covering)"
_MAY_HOLD_ASBESTOS = "Old flooring and its adhesive may hold asbestos, and looks prove nothing"

ASKED_BACK: tuple[tuple[str, str, str], ...] = (
    (
        rf"^{_POINT} (was|is) [\d./]+ (and )?not [\d./]+$",
        "Below or above? Say the value with its side.",
        "B1 was 10 not 9",
    ),
    (
        rf"\b(grind|sand|scrape|chip|sweep|scrabble|scarify|strip|hack)\b.*\b{_OLD_COVERING}\b",
        f"Not before a test: {_MAY_HOLD_ASBESTOS}. Put it on record: floor is old adhesive. What "
        "is known of it: cautions.",
        "scrape off the old glue",
    ),
    (
        r"^(floor|slab|base|substrate)( is)?( an?)?( old)? (vinyl|lino|linoleum|resilient|cork)\b",
        f"What lies under it is poured on: {_FLOORS}. {_MAY_HOLD_ASBESTOS}: cautions.",
        "floor is vinyl",
    ),
    (
        r"^(floor|slab|base|substrate)( is)?( an?)? (chipboard|osb|ply|plywood|parquet|anhydrite"
        r"|gypsum|calcium sulphate|asphalt|steel|metal|stone|brick|terrazzo|laminate|carpet)\b",
        f"A floor is {_FLOORS}. Which is nearest, as the product's data sheet has it?",
        "floor is chipboard",
    ),
    (
        # What a point is not is not what it reads, and must not be offered as that.
        rf"^{_POINT} (is |was )?(isn't|wasn't|isnt|wasnt|not|never) ({_SIGN} )?([\d./]+|level)"
        r"( ?(mm|low|high|below|above))*$",
        "What is it, then? Say the point with what it reads, or strike it.",
        "A1 isn't minus 9",
    ),
    (
        rf"^(put|make|take|bring|move|set) {_POINT} .*\b(lower|higher)( down| up)?$",
        "Which is meant: its reading put right, or the floor ground there?",
        "put F1 two lower",
    ),
    (r"^go back( one)?$", "Which is meant: undo, step back, or go to a point?", "go back"),
    (
        rf"^(redo|again|re-?read|do|check) {_POINT}( again)?$",
        "Which is meant: go to it, correct it or strike it?",
        "redo B1",
    ),
    (r"^next( please)?$", "Which is meant: next point, next row or next step?", "next"),
    (
        r"^(what if )?(i |we )?(only )?pour (to )?[\d./]+ ?(mm|cm|m|in|inch|inches|metres)?$"
        r"|^what if (i|we) (only )?pour ",
        "Which is meant: the most depth, or the height of the finish?",
        "what if I only pour to 12 mm",
    ),
    (
        r"^what if [\d./]+ ?[a-z]* finish$",
        "Below or above zero? Say the finish with its side.",
        "what if 12 mm finish",
    ),
    (
        r"^(only )?(rows|columns) \w+ (and|to) \w+$",
        "Which is meant: where the pour stops, or readings of them?",
        "rows 1 and 2",
    ),
    (
        r"^when (is|will) (it|floor|slab|pour) (be )?(dry|ready|set|cured)$",
        "Which is meant: to walk on it, or to cover it?",
        "when is it dry",
    ),
    (
        r"^(start |begin |go )?(from |at )?other (side|end|direction|way)( round| around)?$",
        "Which way, and from which point? Go to a point, or along columns.",
        "start from the other side",
    ),
    (
        r"^(row|column) \w+$",
        "Which is meant: its values, said after it, or where to go on?",
        "row 2",
    ),
    (
        rf"^(from )?{_POINT} to {_POINT} (all |each |are )*({_SIGN}|[\d.]|level)|^all of (row"
        rf"|column) \w+",
        "The same at each of them? Say each point with its own value.",
        "A1 to D1 minus 8",
    ),
    (
        r"\bbetween [\d./]+ and [\d./]+ \w+$",
        "Which value is it? One reading takes one.",
        "A1 between 8 and 9 low",
    ),
    (
        rf"{_SIGN} [\d./]+ in {_POINT}$",
        "Which is meant: that many inches, or that height in the job's unit?",
        "minus 3 in A5",
    ),
    (
        rf"({_SIGN}) ?[\w.]+( \w+)? (ish|or|maybe|possibly|perhaps)\b|\bsomewhere between\b"
        r"|\b\d+ (low|high|below|above) or (so|\d+)\b",
        "Which value is it? One reading takes one.",
        "A1 minus 8 or 9",
    ),
    (
        r"\b[a-z] or [a-z] (\d|one|two|three|four|five|six|seven|eight|nine)",
        "Which point is it?",
        "minus 8 at b or d 3",
    ),
    (
        r"^(one|two|three|four|five|six|seven|eight|nine) [a-z] (minus|plus|-|\+)"
        r"|^seat \w+ (minus|plus|-|\+)",
        "Which point is that? The letter of its column goes first.",
        "two c minus nine",
    ),
    (
        r"^(what|whats|what's|what is|what was) (is |was )?(number )?([b-hj-z]|one|two|three"
        r"|four|five"
        r"|six|seven|eight|nine|\d{1,2})$",
        "Which point? Say its letter and its number.",
        "what was three",
    ),
    (
        r"\b(air|room)\b.*\d.*\b(slab|floor|humidity|humidty|rh)\b.*\d"
        r"|\b(slab|floor)\b.*\d.*\b(air|humidity|humidty|rh)\b.*\d",
        "Which first? Say the air, the slab and the humidity each by itself.",
        "air 19 slab 16",
    ),
    (
        r"^(rh|moisture|humidity)( test| reading| check)?( is| at| says| reads| of)? [\d.]+( %| "
        r"percent)?$",
        "Which is meant: the air's humidity, or the slab's?",
        "rh test at 71",
    ),
    (
        r"\b(without|except|excluding|leaving out|apart from|not counting) (that |my )?"
        r"(door|doorway|hall|hallway|corner|alcove|bay|recess|porch|hearth|window)( \w+)?$",
        "Which part is that? Give it a name as a zone.",
        "mean depth without the doorway",
    ),
    (
        r"^(put |add |there is |there's |theres )?.*\b(column|hole|post|pillar|pier|shaft"
        r"|pipe)\b.* \d+ "
        r"(square|across|round|wide|diameter|in diameter)$",
        "In which unit is that?",
        "column at D4 about 400 square",
    ),
    (
        r"^(?!.*\bleft\b.*\bright\b|.*\bright\b.*\bleft\b|.*\boutside\b)"
        r".*\b(door|doorway|jambs?)\b.*\b(left|right)\b.*\d"
        r"|^(left|right) (hand )?(side |jamb )+(-|\+|minus|plus)? ?[\w.]+( mm| mil)?$",
        "A door takes both jambs, left and right, each with its height and side.",
        "doorway right side plus 2 mm",
    ),
    (
        rf"^\d{{1,2}} ?[a-wyz] ({_SIGN}|[\d.]+|is|reads|low|high)\b",
        "Which point is that? The letter of its column goes first.",
        "3 b minus 18",
    ),
    (
        r"^(can you |could you )?(raise|lower|drop|lift|up|put up|bring|take|make|move|push)"
        r"( up| down)?( it| finish| floor| pour)?( up| down)?( a| another)?"
        r"( (bit|touch|little|tad|fraction|hair|smidge|notch|smidgen|whisker))*"
        r"( more| higher| lower| up| down| thicker| thinner)*$",
        "By how much? Say the size, too.",
        "raise the finish a bit",
    ),
    (
        r"^(put |make )?finish( up| down)? (a |some )?(bit|touch|little|tad|fraction|hair|notch)?"
        r" ?(more |up |down )?(higher|lower|up|down)( please)?$",
        "By how much? Say the size, too.",
        "finish a bit higher",
    ),
    (
        r"^(set|change|move|alter|adjust|put in|fix) (finish|waste|grid|spacing|aggregate|humidity"
        r"|room|finish height|finish level)$",
        "To which value? Say it, too.",
        "change the grid",
    ),
    (
        r"^(more|less|put up|raise|lower|increase|reduce|put) waste( up| down| a bit)*$"
        r"|^(a bit )?(more|less) waste$",
        "How many percent? Say the number, too.",
        "more waste",
    ),
    (
        r"^(add|put|put in|mark|there is|there's|theres|i have|we have|i've got|got) (in )?"
        r"(a|an|another) (\w+ )?(column|pillar|post|pier|hole|cabinet|shaft|cupboard|stack|pipe"
        r"|opening|drain|gully)( in| here| there| on floor)*$",
        "Where is it, and how big?",
        "add a column",
    ),
    (
        r"^(correct|change|fix|amend|update|alter|edit|adjust) [a-z]{1,2} ?\d{1,2}$"
        r"|^[a-z]{1,2} ?\d{1,2} (is|was|looks) (wrong|off|not right|incorrect|bad)$"
        r"|^[a-z]{1,2} ?\d{1,2} needs (changing|correcting|fixing|a change)$",
        "What should it be? Say the value, or strike it.",
        "B1 is wrong",
    ),
    (
        r"^(front |back )?door( \w+)? (-|\+|minus|plus) [\d./]+( mm)?$"
        r"|^door( \w+)? (left|right|outside)( jamb| side)?$"
        r"|^(left|right) (jamb|side) of (front |back )?door( \w+)?$|^(left|right) jamb$",
        "Which jamb, left or right, or outside? Say it with its height.",
        "door minus 3",
    ),
    (
        r"^(hold|keep|check|test|try) (it|floor|this floor) (against |to |by |for )?"
        r"(sr ?\d|din|bs|aci|astm|f ?710)\b"
        r"|^(does|is) (it|floor|this floor) (meet|pass|within|inside|to|in|by)"
        r" (sr ?\d|din|bs|aci|astm|f ?710)\b",
        "A limit is chosen by its name. Say spec, then the name.",
        "hold the floor to SR1",
    ),
    (
        r"^(set |use |which |what )?(door|doorway|threshold) rules?( are there)?$",
        "Which country's? Say: door rules usa, or door rules uk.",
        "door rules",
    ),
    (
        rf"^door {_NUMBER}$",
        "Which is meant: its heights, left, right or outside, or how it is?",
        "door 1",
    ),
    (
        r"\b(sill|threshold)\b.*\d$",
        "Which is meant: the floor outside, or a jamb, left or right?",
        "door 1 threshold plus 4",
    ),
    (
        rf"^(moved to |this is |start )?set ?up {_NUMBER}$",
        "Which is meant: a new set up, or a tie to the one before?",
        "set up 2",
    ),
)
"""Pattern over the words, what is asked, and a line that it is asked of."""
