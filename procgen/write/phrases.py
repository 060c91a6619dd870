"""Every phrase of a page, as constant templates with named fields, ready for translation.

One phrase per verb and kind of item, so that the same action reads the same on every page. The verb comes
first, a condition before its action; a sentence holds at most 20 words, an item's painted name counting as
one. Fields that are items come with their article and marked as painted: the **door sill lock**.
`done_when` is a whole sentence; `if_not` says what to do if it is not so, without the condition.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from procgen.model.words import Looker, Operation, SectionName

LOADER = "loader"
OPERATOR = "operator"
SECOND_PERSON = "second person"


@dataclass(frozen=True, slots=True)
class Phrase:
    """One action in words: what to do, what it looks like when done, what to do if not, who does it."""

    text: str
    done_when: str = ""
    if_not: str = ""
    who: str = ""


HAND: Mapping[tuple[str, str], Phrase] = {
    ("open", "door"): Phrase(
        "Open {item}.",
        "Done when it is fully open and held open.",
        "Do not go under it. Tell the supervisor.",
        LOADER,
    ),
    ("open", "panel"): Phrase("Open {item}.", who=OPERATOR),
    ("close", "door"): Phrase(
        "Close {item}.",
        "Done when no edge of it stands out.",
        "Do not force it and do not leave it. Tell the supervisor.",
        LOADER,
    ),
    ("close", "panel"): Phrase("Close {item}.", who=OPERATOR),
    ("set", "switch"): Phrase("Set {item} to {position}.", who=OPERATOR),
    ("set", "stick"): Phrase("Set {item} to {position}.", who=OPERATOR),
    ("set", "handle"): Phrase("Set {item} to {position}.", who=OPERATOR),
    ("set", "button"): Phrase("Set {item} to {position}.", who=OPERATOR),
    ("set", "lever"): Phrase("Set {item} to {position}.", who=OPERATOR),
    ("raise", "latch"): Phrase("Raise {item}.", "Done when it stands upright.", "", LOADER),
    ("raise", "lock"): Phrase("Raise {item}.", "Done when it stands upright.", "", LOADER),
    ("raise", "guide"): Phrase("Raise {item}.", "Done when it stands upright.", "", LOADER),
    ("raise", "rail"): Phrase("Raise {item}.", "Done when it stands upright.", "", LOADER),
    ("raise", "stop"): Phrase("Raise {item}.", "Done when it stands upright.", "", LOADER),
    ("raise", "net"): Phrase("Raise {item}.", "Done when it is tight at every point.", "", LOADER),
    ("lower", "latch"): Phrase("Lower {item}.", "Done when it lies flat.", "", LOADER),
    ("lower", "lock"): Phrase("Lower {item}.", "Done when it lies flat.", "", LOADER),
    ("lower", "guide"): Phrase("Lower {item}.", "Done when it lies flat.", "", LOADER),
    ("lower", "rail"): Phrase("Lower {item}.", "Done when it lies flat.", "", LOADER),
    ("lower", "stop"): Phrase("Lower {item}.", "Done when it lies flat.", "", LOADER),
    ("lower", "net"): Phrase("Lower {item}.", "Done when no part of it hangs in the way.", "", LOADER),
    ("fit", "net"): Phrase("Fit {item}.", "Done when it is tight at every point.", "", LOADER),
    ("remove", "net"): Phrase("Remove {item}.", "Done when no part of it hangs in the way.", "", LOADER),
    # An item that this hold does not have, or one of a kind that the verb does not fit.
    ("open", ""): Phrase("Open {item}."),
    ("close", ""): Phrase("Close {item}."),
    ("set", ""): Phrase("Set {item} to {position}."),
    ("raise", ""): Phrase("Raise {item}."),
    ("lower", ""): Phrase("Lower {item}."),
    ("fit", ""): Phrase("Fit {item}."),
    ("remove", ""): Phrase("Remove {item}."),
}
"""Hand actions by verb and kind of item."""

GO_IN = "Go in."
"""Stands before the first action inside the hold after everyone was out."""
COME_OUT = "Then come out."
"""Stands behind the last action inside the hold before a check that everybody is out."""

HELD_BACK = "Done when it stands upright and the unit cannot roll back: push it by hand."
HELD_TOWARDS = "Done when it stands upright and the unit cannot roll {direction}: push it by hand."
HELD_UNIT = "Done when it stands upright and the unit in {bay} cannot move: push it by hand."
HELD_IF_NOT = "Do not force it. Move no other unit. Tell the supervisor."

LETS_POWER_ON = "It also lets power on."
POWER_NEEDS = "Power stays off until {items}."
CUTS_POWER = "This also cuts the power."
GUIDES_UNIT = "It keeps the unit square on its way."
POWER_DONE = "Done when the power is on."
POWER_IF_NOT = "Look again whether {items}. Still no power: stop and tell the supervisor."
POWER_IF_NOT_ALONE = "Stop and tell the supervisor."

CHECK_RAISED = Phrase("Check that {items} {are} up.", "", "Do not move a unit. Tell the supervisor.", LOADER)
CHECK_LOWERED = Phrase(
    "Check that {items} {are} down.", "", "Do not move a unit. Tell the supervisor.", LOADER
)
CHECK_RAISED_BY_HAND = Phrase("Check that {items} {are} up.", "", "Raise what is down.", LOADER)
CHECK_LOWERED_BY_HAND = Phrase("Check that {items} {are} down.", "", "Lower what is up.", LOADER)
CHECK_FITTED = Phrase("Check that {items} {are} fitted.", "", "Fit what is removed.", LOADER)
CHECK_REMOVED = Phrase("Check that {items} {are} removed.", "", "Remove what is fitted.", LOADER)
LOOK = "Check that "
BOTH_LOOKS = "{first}, and that {second}"
LOOK_AT_LATCH: Mapping[Looker, Phrase] = {
    Looker.CLOSER: Phrase(
        "Look at the latch of {item}, not only at its handle.",
        "Done when you have seen the latch closed.",
        "Do not leave the door. Tell the supervisor.",
        LOADER,
    ),
    Looker.SECOND: Phrase(
        "Look at the latch of {item} too. It stays closed from now on.",
        "Done when somebody who did not close the door has seen the latch closed.",
        "Do not call the hold done. Tell the supervisor.",
        SECOND_PERSON,
    ),
}
CHECK_UNNAMED = Phrase("Check: {name}.")
REPORT_UNNAMED = Phrase("Report: {name}.")
IS_ONE = "is"
ARE_MANY = "are"
ITEMS_UP = "{items} {are} up"
ITEMS_DOWN = "{items} {are} down"

PRESENT = Phrase("Bring {unit} ({facts}) to {sill}.", who=LOADER)
PRESENT_BARE = Phrase("Bring {unit} to {sill}.", who=LOADER)
SILL = "the sill"
SILL_OF = "the sill of {door}"
FOR_POSITION = "for {bay}"
AT_MOST = "at most {mass}"

HOLD_ONE = "Hold {control} to {position} until {end}."
HOLD_TWO_ALIKE = "Hold {first} and {second} to {position} together until {end}."
HOLD_TWO = "Hold {first} to {first_position} and {second} to {second_position} together until {end}."
HOLD_NOTHING = "Move the unit until {end}."
HOLD_ONE_ON = "Hold {control} to {position}."
HOLD_TWO_ALIKE_ON = "Hold {first} and {second} to {position} together."
HOLD_TWO_ON = "Hold {first} to {first_position} and {second} to {second_position} together."
LET_GO_PAST = "When the unit is past {items}, let go of {control}."
LET_GO_AT_END = "When {end}, let go of {control}."
PUSH = "Push the unit {direction} with {crew} people until {end}."
PUSH_NOWHERE = "Push the unit with {crew} people until {end}."
PUSH_HOLDING = "Hold {controls} meanwhile."
PUSH_CONTROL = "{control} to {position}"
PULL = "Pull the unit {direction} with {crew} people and {gear} until {end}."
PULL_NOWHERE = "Pull the unit with {crew} people and {gear} until {end}."
PULL_STAND = "Those who pull stand on the platform, past where the unit stops."
PULL_LET_GO = "When it rolls by itself, let go of {gear} and step out of its way."
PULL_IF_NOT = "Stop, let go of {gear} and step aside. Do not use fewer people."
PUSH_IF_NOT = "Stop. Do not pull and do not use fewer people."

STOW = Phrase(
    "Stow {load} in section {bay} by hand with {crew} people.",
    "Done when no piece stands outside section {bay} and none can fall.",
    "Take it down again from the top and stow it anew.",
    LOADER,
)
STOW_WHY = "Heavy pieces low, light ones on top."
TAKE_OUT = Phrase(
    "Take {load} out of section {bay} by hand with {crew} people, from the top down.",
    "Done when nothing is left in section {bay}.",
    "",
    LOADER,
)
THE_HOLD = "the hold"

END_ITEM = "the unit touches {item}"
END_UNIT = "the unit touches the unit in {bay}"
END_BAY = "the unit stands in {bay}"
END_OUTSIDE = "the unit is on the platform"
GIVES_WAY = "{item} gives way in this direction: watch the unit and let go in time."
GIVES_WAY_PUSH = "{item} gives way in this direction: hold the unit back yourselves."
GIVES_WAY_PULL = "{item} gives way in this direction: let go in time."
NO_STOP_PULL = "No stop holds it there: let go in time."
NO_STOP = "No stop holds it there: watch it and let go in time."
NO_ROOM = "Nobody gets behind it there: ask the supervisor first how it is started."
NO_STOP_PUSH = "No stop holds it there: hold it back yourselves."

PUSHED_ONE = "The unit pushes {items} down; a spring raises it behind the unit."
PUSHED_MANY = "The unit pushes {items} down; springs raise them behind the unit."
PUSHED_ONE_STAYS = "The unit pushes {items} down; it stays down until you raise it."
PUSHED_MANY_STAY = "The unit pushes {items} down; they stay down until you raise them."
COMES_UP_ONE = "{items} comes up by itself."
COME_UP_MANY = "{items} come up by themselves."
HANDLE_RETURNS = "{control} goes back by itself when the unit is clear."

DIRECTIONS: Mapping[str, str] = {"in": "in", "out": "out", "forward": "forward", "aft": "aft"}
ITEM = "the **{name}**"
ITEM_NUMBERED = "**{name}**"
BAY = "**{bay}**"
UNIT_NAMED = "**{name}**"
UNIT_FOR = "the unit for **{bay}**"
LOAD_FOR = "the loose load for **{bay}**"
LOAD_NAMED = "the loose load **{name}**"
LOAD_HERE = "the loose load"
A_UNIT = "the unit"
THE_DOOR = "the door"
CLEAR = "nobody is in the hold or in the way"
CLEAR_BUT_FOR_CREW = "only the crew is in the hold, and nobody in the way"
SHUT_UNIT = "door shut or net tight"
SHUT_LOAD = "every piece closed"
LIST_COMMA = ", "
LIST_AND = " and "
SPEED = "{written} ({other})"

LABEL_POSITION = "position"
LABEL_UNIT = "unit"
LABEL_DOOR = "door"
LABEL_PANEL = "panel"
LABEL_ITEM = "item"
LABEL_NAME = "name"
LABEL_TOUCHED = "what stops it"
LABEL_OF_SEVERAL = "{label} {number}"
"""What a column of a folded cycle is called: it reads in a sentence, as in "until the unit touches ..."."""

BLOCKS: Mapping[SectionName, tuple[str, str]] = {
    SectionName.BEFORE_YOU_START: ("Before you start", "What must be right before you open the door."),
    SectionName.PREPARE: ("Prepare the hold", "Open the door and clear the way for the units."),
    SectionName.MOVE_UNITS: ("Move units", ""),
    SectionName.SECURE_AND_CLOSE: ("Secure and close", "Leave the hold locked, empty of people and closed."),
}
"""Title and first line of a block, by section."""

CYCLE: Mapping[Operation, str] = {Operation.LOADING: "Load {bay}", Operation.UNLOADING: "Unload {bay}"}
CYCLE_UNIT = "{title}: {unit}"
INTRO_LIMIT = "{type}, at most {mass}."
CYCLE_OUT_FOR_NOW = "Take {bay} out for now"
CYCLE_BACK = "Put {bay} back"
INTRO_LOCK = "Secure it with {items}."
INTRO_ALREADY = "Already in place: {items}."
INTRO_LATER = "At the end, secure it with {items}."
INTRO_FREE = "To free it, {doing}."
INTRO_FOR_NOW = "It makes way for others and goes back later: set it apart."
FREE_LOWER = "lower {items}"
FREE_REMOVE = "remove {items}"

WAY_CLOSE = "Leave every unit where it is and close the hold."
WAY_TO = "Bring the unit to {bay} and close the hold."
WAY_TO_BY_HAND = "Push the unit to {bay} and close the hold."
WAY_OUT = "Bring the unit out and close the hold."
WAY_OUT_BY_HAND = "Push the unit out and close the hold."
WAY_OUT_PULLED = "Move the unit out by hand and close the hold."
WAY_SECURE = "Secure the unit in {bay}, where it stands, and close the hold."
WAY_OTHERS_OUT = "Secure the unit in {bay}, where it stands, take all others out and close the hold."
WAY_GOES_ON = "Go in, come out and go on with the next step."
WAY_LATER = "Nobody gets in: the doorway is taken. First finish the step that is named."
WAY_CALL = "Leave it as it is, and call."
"""What a way out of a mishap comes to, in one line."""
