"""What each finding means: why it matters, an example, what to write instead; the guide can be made from it."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.diagnostics import Code


@dataclass(frozen=True, slots=True)
class Explanation:
    """A code in words. example: text that causes it; instead: text or a deed that does not."""

    title: str
    why: str
    example: str
    instead: str


CATALOGUE: dict[Code, Explanation] = {
    Code.BLOCK_UNREADABLE: Explanation(
        "A block that is no list of keys",
        "Nothing of it can be told apart, so the page shows its text and this notice in its place.",
        "A minor, then lift finger 3.",
        "id: letting-go\nstart: x02210/--231- = Am\nsteps:\n- 3 off = Am7",
    ),
    Code.BLOCK_TOO_LARGE: Explanation(
        "A block with too much text or too many steps",
        "No lesson needs half a megabyte or a thousand steps in one block; one that has them was pasted by mistake, "
        "or means harm.",
        "a block of a thousand steps",
        "several blocks, each going on from the one before with `start: previous`",
    ),
    Code.BLOCK_EMPTY: Explanation(
        "An empty block",
        "There is nothing to show, so something was lost on the way.",
        "```moves\n```",
        "```moves\nid: first\nsteps:\n- hold\n```",
    ),
    Code.FENCE_UNCLOSED: Explanation(
        "A block without its end",
        "Markdown takes everything down to the end of the page into the block, and the prose is lost.",
        "```moves\nid: first\nsteps:\n- hold",
        "```moves\nid: first\nsteps:\n- hold\n```",
    ),
    Code.FENCE_INDENT: Explanation(
        "A block that does not belong to its list",
        "With two or three blanks before it the list ends, and its numbers begin anew.",
        "1. Play this.\n\n   ```moves",
        "1. Play this.\n\n    ```moves",
    ),
    Code.FENCE_MISWRITTEN: Explanation(
        "A block in a fence that does not say `moves`",
        "Markdown would show the text of the block in place of its pictures. A fence that says `text` is left alone.",
        "```move\nid: first\nsteps:\n- hold\n```",
        "```moves\nid: first\nsteps:\n- hold\n```",
    ),
    Code.ANCHOR_OR_TAG: Explanation(
        "A reference to another part of the text",
        "Such references can grow without bound and hide what a line says, so they are not read.",
        "start: *before",
        "start: previous",
    ),
    Code.UNKNOWN_KEY: Explanation(
        "A key that is not known",
        "What stands under it would be lost without a word.",
        "titel: A slip of the pen",
        "title: A slip of the pen",
    ),
    Code.DUPLICATE_KEY: Explanation(
        "A key that is given twice", "Only one of the two can count.", "key: G\nkey: Em", "key: Em"
    ),
    Code.MISSING_KEY: Explanation(
        "A key that is missing",
        "Links, takes and a student's progress need the `id`; a long step needs its `move`.",
        "start: open\nsteps:\n- hold",
        "id: first\nstart: open\nsteps:\n- hold",
    ),
    Code.BAD_VALUE: Explanation(
        "A value that its key does not take",
        "It can't be used, and nothing near it may be guessed.",
        "capo: second",
        "capo: 2",
    ),
    Code.MOVE_UNREADABLE: Explanation(
        "A line that is no move",
        "The hand can't follow it. The finding points at the first word that makes no sense.",
        "- 3 of",
        "- 3 off",
    ),
    Code.UNKNOWN_STRING: Explanation(
        "A string that the instrument does not have",
        "The letters are those of this tuning; one that two strings share serves for neither, and numbers always do.",
        "- 3 to 7:2",
        "- 3 to 6:2",
    ),
    Code.UNKNOWN_FINGER: Explanation(
        "A finger that no hand has", "Fingers are 1 (index) to 4 (little), and T for the thumb.", "- 5 off", "- 4 off"
    ),
    Code.UNKNOWN_FRET: Explanation(
        "A fret that the neck does not have",
        "Frets count from 1, or from the capo; fret 0 is the open string, which no finger presses.",
        "- 3 to A99",
        "- 3 to A9",
    ),
    Code.SYMBOL_UNREADABLE: Explanation(
        "A name that is no chord symbol", "It can't be held against what sounds.", "- 3 off = Amseven", "- 3 off = Am7"
    ),
    Code.FRONT_MATTER: Explanation(
        "Data at the top of a page that is read otherwise than it looks",
        "MkDocs takes `Word: text` at the very top for data and drops it, and shows unreadable data as prose.",
        "Note: bring a capo.\n\n# The lesson",
        "# The lesson\n\nNote: bring a capo.",
    ),
    Code.INVALID_UTF8: Explanation(
        "Bytes that are no text",
        "They were saved in another encoding, and would be shown as marks.",
        "a page saved as Latin-1",
        "the same page saved as UTF-8",
    ),
    Code.FINGER_NOT_DOWN: Explanation(
        "A finger moves away that is not down",
        "Either the finger or an earlier step is wrong; a student would stop here and look for it.",
        "start: x02210/--231- = Am\nsteps:\n- 4 off",
        "start: x02210/--231- = Am\nsteps:\n- 3 off",
    ),
    Code.TOO_MANY_FINGERS: Explanation(
        "More fingers move than were promised",
        "The course changes one finger at a time, unless a block says otherwise.",
        "- 1 off and 2 off",
        "- 1 off\n- 2 off",
    ),
    Code.IMPOSSIBLE_HAND: Explanation(
        "A hand that no hand can make",
        "It breaks one of the limits of the hand, which the course can set under `limits`.",
        "start: x32010/-32-1- = C\nsteps:\n- 4 to e8",
        "start: x32010/-32-1- = C\nsteps:\n- 4 to e3",
    ),
    Code.IMPOSSIBLE_MOVE: Explanation(
        "A move that the hand, as it stands, can't make",
        "The finger is there already, say, or there is no rest to come back from.",
        "start: x02210/--231- = Am\nsteps:\n- 3 to G2",
        "start: x02210/--231- = Am\nsteps:\n- hold",
    ),
    Code.START_WITHOUT_FINGERS: Explanation(
        "A start that does not say which finger is where",
        "The moves below name fingers. The likeliest are taken, and they may not be the ones that you mean.",
        "start: x02210 = Am\nsteps:\n- 3 off",
        "start: x02210/--231- = Am\nsteps:\n- 3 off",
    ),
    Code.DAMPING_LAPSED: Explanation(
        "A string that rings again",
        "The finger that damped it has moved. Perhaps that is meant; a name that takes the string in says so.",
        "- mute A by 2\n- 2 off",
        "- mute A by 2\n- 2 off, mute A",
    ),
    Code.PRESSED_BUT_NOT_STRUCK: Explanation(
        "A finger on a string that nobody hears",
        "The string is not struck, or it is damped, so pressing it changes nothing.",
        "start: xx0232/---132 = D\nsteps:\n- 4 to A3",
        "start: xx0232/---132 = D\nsteps:\n- 4 to A3, strum A-e",
    ),
    Code.NO_SOUND_CHANGES: Explanation(
        "A move that changes no sound",
        "One changed note makes a new chord; where a finger only gets ready, the line says `silent`.",
        "start: 320003/32---4 = G\nsteps:\n- 1 to e2",
        "start: 320003/32---4 = G\nsteps:\n- 1 to e2 silent",
    ),
    Code.SOUND_CHANGES_AFTER_ALL: Explanation(
        "A silent move that is heard",
        "The line promises that no sound changes, and one does.",
        "- 3 off silent",
        "- 3 off",
    ),
    Code.SHAPE_REPEATED: Explanation(
        "A shape repeated without need",
        "A student turns the page and has nothing to do; often it is what is left of a step that was cut.",
        "- 3 off = Am7\n- hold",
        "- 3 off = Am7\n- move: hold\n  say: Four slow strums.",
    ),
    Code.NAME_IS_WRONG: Explanation(
        "A name that is not what sounds",
        "With `=` root and notes are this chord, with a slash the bass too. The message says what sounds.",
        "start: x02210/--231- = Am\nsteps:\n- 3 off = C",
        "start: x02210/--231- = Am\nsteps:\n- 3 off = Am7",
    ),
    Code.NAME_IS_LOOSE: Explanation(
        "A name that says more than sounds",
        "Its root is there and nothing is foreign, but more is missing than custom leaves out, such as the third.",
        "start: 3x0033/2---34 = G",
        "start: 3x0033/2---34 = G5",
    ),
    Code.NAME_WOULD_HOLD: Explanation(
        "A near name that is exact",
        "`~` promises a footnote about what differs, and nothing does.",
        "- 3 off ~ Am7",
        "- 3 off = Am7",
    ),
    Code.TIE_DECIDED_OTHERWISE: Explanation(
        "The other of two names for the same notes",
        "The course has decided for one of them, in `ties` or by using it first over the same bass.",
        "ties: [Am7 not C6]     - 3 to E3 = C6/G",
        "ties: [Am7 not C6]     - 3 to E3 = Am7/G",
    ),
    Code.DUPLICATE_ID: Explanation(
        "An id that is given twice",
        "Links, takes and a student's progress go by it, and could not tell the two apart.",
        "id: same     (and again on another page)",
        "id: same-evening",
    ),
    Code.UNUSED_ID: Explanation(
        "An id of a step that nothing refers to",
        "The id that a step gets by itself serves links and progress as well, and tells students when the step has "
        "become another. One by hand is there to be referred to; perhaps the mention that should do so names another.",
        "- move: 1 to B1\n  id: the-easy-one     (and nowhere a mention of it, or a link to it)",
        "- move: 1 to B1\n  id: the-easy-one\n\nand in the prose `step: several the-easy-one`",
    ),
    Code.UNRESOLVED_START: Explanation(
        "A start that leads nowhere, or to two places",
        "`previous`, `after` and `as taught` must point to one shape that comes earlier in the course.",
        "start: after nothing",
        "start: previous",
    ),
    Code.UNRESOLVED_MENTION: Explanation(
        "A mention that leads nowhere",
        "The prose points to a chord or a step that the course does not have.",
        "`step: lamb C`",
        "`step: lamp C`",
    ),
    Code.MENTION_DENIED: Explanation(
        "A mention that the hand denies",
        "`now:` says what the hand holds at this place of the page, after the blocks above it.",
        "You hold `now: Am`.     (after a block that ends on C)",
        "You hold `now: C`.",
    ),
    Code.MENTION_MISWRITTEN: Explanation(
        "A mention that is misspelt",
        "The page would show it as code, and nothing of what it says is checked.",
        "You hold `now:C`.",
        "You hold `now: C`.",
    ),
    Code.USED_BEFORE_TAUGHT: Explanation(
        "Something used before it was taught",
        "A student who follows the course would meet what nobody has shown. Swapped lessons are found so.",
        "teaches: [Am]\nsteps:\n- 3 off = Am7",
        "teaches: [Am, Am7]\nsteps:\n- 3 off = Am7",
    ),
    Code.TAUGHT_BUT_NOT_USED: Explanation(
        "Something taught that does not occur",
        "A word of `teaches` was left behind or is misspelt, or the step that would show it was left out.",
        "teaches: [Am, G7]\nsteps:\n- 3 off = Am7",
        "teaches: [Am, Am7]\nsteps:\n- 3 off = Am7",
    ),
    Code.MISSING_IMAGE: Explanation(
        "An image that is not there", "The page would show a gap in its place.", "image: thumb.pgn", "image: thumb.png"
    ),
    Code.CUES_OUT_OF_ORDER: Explanation(
        "Cues that go back",
        "Steps are played in their order, so their cues in the recording go forward.",
        "- 3 off @0:41\n- 3 to G2 @0:14",
        "- 3 off @0:41\n- 3 to G2 @0:54",
    ),
    Code.HARDER_STEP: Explanation(
        "A step much harder than those before it",
        "Here students stop. The measure is the hardest change so far; the option `harder_step` says how much is much.",
        "- 1 to E1-e1     (after lifts and single fingers only)",
        "- move: 1 to E1-e1\n  or: xx3211/--3211",
    ),
    Code.NO_WARM_UP: Explanation(
        "A lesson that begins with what is hard",
        "Not warming up goes along with injury. Asked for by the option `warm_up_steps`; how many is common practice.",
        "warm_up_steps: 4\n\nstart: 133211/134211 = F",
        "warm_up_steps: 4\n\nstart: x02210/--231- = Am     (and the bar after four steps)",
    ),
    Code.NO_REST: Explanation(
        "Too many steps without a rest",
        "Hands tire before ears do. Asked for by the option `rest_after_steps`; how many is common practice.",
        "rest_after_steps: 2\n\n- 3 off\n- 3 to G2\n- 3 off",
        "rest_after_steps: 2\n\n- 3 off\n- 3 to G2\n- rest\n- back\n- 3 off",
    ),
    Code.DEAD_LINK: Explanation(
        "A link that leads nowhere",
        "A student taps it and stands before a page that says that there is none, or at the top of a long one.",
        "[the gate](the-gate.md#fourth-step)",
        "[the gate](the-gate.md#the-third-gate)",
    ),
    Code.DEAD_REDIRECT: Explanation(
        "A redirect that leads nowhere, or need not be",
        "Old addresses in videos and bookmarks are to lead on: in one step, to a page that is there.",
        "redirects: {gate.md: the-gaet.md}",
        "redirects: {gate.md: the-gate.md}",
    ),
    Code.BLOCKED_BY_POLICY: Explanation(
        "Something that the policy of the pages blocks",
        "A page runs only its own scripts and shows only its own files; a student would see a gap, or tap in vain.",
        "![The hand](https://host.example/hand.png)",
        "![The hand](hand.png)",
    ),
    Code.PAGE_NOT_IN_NAV: Explanation(
        "A lesson that the navigation leaves out",
        "Nobody said where in the course it is taught, so it comes last; what it teaches is not missed elsewhere.",
        "nav:\n- index.md",
        "nav:\n- index.md\n- the-gate.md",
    ),
    Code.ACCEPTANCE_WITHOUT_REASON: Explanation(
        "A finding accepted without a reason",
        "In a year nobody knows why it may stay. Until the comment says so, the finding counts.",
        "# accept name-is-loose\n- 3 off = C",
        "# accept name-is-loose: the recording says C\n- 3 off = C",
    ),
    Code.ACCEPTANCE_UNKNOWN: Explanation(
        "An acceptance of a finding that there is not",
        "The code is that in brackets at the end of the finding, so a misspelt one accepts nothing.",
        "# accept name-is-lose: the recording says C",
        "# accept name-is-loose: the recording says C",
    ),
    Code.ACCEPTANCE_REFUSED: Explanation(
        "An acceptance of what can't be accepted",
        "The page would be wrong or unreadable, and the reader would pay for it.",
        "- 5 off # accept unknown-finger: a big hand",
        "- 4 off",
    ),
    Code.ACCEPTANCE_LAPSED: Explanation(
        "An acceptance of what is no longer found",
        "It would silently accept the next slip that comes to stand there.",
        "# accept name-is-loose: the recording says C\n- 3 off = C6",
        "- 3 off = C6",
    ),
    Code.BAD_SETTING: Explanation(
        "An option with a value that it does not take", "The default is used in its place.", "frets: many", "frets: 22"
    ),
    Code.UNREADABLE_FILE: Explanation(
        "A file that can't be read",
        "It is missing, not yours to read, or larger than any page.",
        "docs_dir: corse",
        "docs_dir: course",
    ),
    Code.LINK_OUT_OF_TREE: Explanation(
        "A file from outside the course",
        "A link or a path out of the sources could publish what is not meant for readers, or ask another host.",
        "image: https://example.org/thumb.png A thumb.",
        "image: thumb.png A thumb.",
    ),
}
"""One entry a code, in the order of the codes."""


def explain(code: Code) -> Explanation:
    """What a finding of this code means."""
    return CATALOGUE[code]
