"""The rules of the simulation: name, severity and meaning in one line. Each has a page of its own."""

from __future__ import annotations

from typing import NamedTuple

from procgen.diagnostics import Severity


class SimulationRule(NamedTuple):
    """A rule: the name states the defect, the meaning says it in one line."""

    name: str
    severity: Severity
    meaning: str


def _rule(name: str, meaning: str, severity: Severity = Severity.ERROR) -> SimulationRule:
    return SimulationRule(name, severity, meaning)


RULES: tuple[SimulationRule, ...] = (
    # Names and verbs.
    _rule("unknown-in-hold", "A step names an item, control, bay, unit, door or panel that is not there."),
    _rule("no-such-control-position", "A step puts a control in a position that it does not have."),
    _rule("wrong-verb-for-item", "A step does to a thing what cannot be done to a thing of its kind."),
    _rule("step-without-effect", "A step leaves everything as it was."),
    # Moves: the way.
    _rule("move-not-along-a-lane", "A unit is moved between bays that are not neighbours in a lane."),
    _rule("move-changes-direction", "A unit is moved in two directions in one step."),
    _rule("move-through-raised-restraint", "A unit is moved against a restraint that is up and stops it."),
    _rule("move-with-guide-down", "A unit is moved while an item that must guide it is down."),
    _rule(
        "unit-over-raised-restraint",
        "A unit stands over a restraint that is up, or one is raised under it.",
    ),
    _rule("bay-occupied", "A unit is moved into a bay where, or partly where, another unit stands."),
    _rule(
        "unit-does-not-fit",
        "A unit is moved where its base, height, contour or kind does not fit.",
    ),
    # Moves: the unit.
    _rule("door-not-named", "A unit is presented in a hold with several doors, and the step names none."),
    _rule("unit-at-other-door", "A unit is moved in at another door than the one it was presented at."),
    _rule("unit-not-presented", "A unit is moved in from outside before it was presented at the door."),
    _rule("unit-presented-twice", "A unit is presented at the door when it is already there or in the hold."),
    _rule("moved-by-wrong-verb", "A unit is stowed like loose pieces, or loose pieces moved like a unit."),
    _rule("unit-not-where-move-starts", "A unit is moved from a place where it does not stand."),
    _rule("jammed-unit-moved", "A unit is moved that is jammed where it stands."),
    _rule("unit-not-planned", "A unit is moved that the procedure leaves where it is."),
    # Moves: what drives them.
    _rule("move-without-power", "A unit is driven while power is off."),
    _rule("no-live-drive", "A unit is driven where no drive under it is run in that direction."),
    _rule("wrong-control-held", "A control is held that works against the move or does nothing for it."),
    _rule("too-many-controls-held", "More than two controls are held at once."),
    _rule("staying-control-held", "A control that stays where it is put is held as if it sprang back."),
    _rule("held-control-set", "A control that springs back is set as if it stayed."),
    _rule("hand-move-forbidden", "A unit is pushed by hand without the hold's leave."),
    _rule("crew-too-small", "A unit is pushed or pulled, or a load stowed, by fewer people than it takes."),
    _rule("pull-above-rating", "A unit is pulled with gear that is not rated for the pull it takes."),
    _rule("nowhere-to-pull-from", "A unit is pulled from where nobody can stand out of its path."),
    # Moves: people and other units.
    _rule("path-not-confirmed", "A unit is moved without the path confirmed clear for it."),
    _rule("person-in-the-way", "A unit is moved while somebody may be in the hold."),
    _rule("released-early", "A unit is moved while another stands in the hold with a restraint down."),
    # Hands.
    _rule(
        "control-behind-closed-panel",
        "A control is worked, or a panel moved, while the panel over it is closed.",
    ),
    _rule("out-of-reach", "An item is worked from inside where units stand between it and every open door."),
    _rule("fixed-item-moved", "A fixed item is raised, lowered, fitted or removed."),
    _rule("controlled-item-moved-by-hand", "An item that only a control moves is moved by hand."),
    _rule("door-not-open", "Something is done in the hold or through a door while the door is closed."),
    _rule("door-closed-too-early", "A door is closed before everything is ready for it to close."),
    _rule("latch-seen-late", "Something is done before whoever closed a door looks at its latch."),
    _rule("latch-not-seen-twice", "A hold is called done with a latch that two persons have not looked at."),
    _rule("person-shut-in", "A door is closed while somebody may be in the hold."),
    # Power, checks.
    _rule("interlock-not-met", "Power is switched on while an interlock holds it off."),
    _rule("interlock-moved-under-power", "An interlock item is moved with power on where that is forbidden."),
    _rule("check-contradicts-hold", "A check asks for what cannot be so at that step."),
    # The end.
    _rule("unit-not-in-its-bay", "At the end of loading a unit is not in its bay."),
    _rule("unit-left-aboard", "At the end of unloading a unit is still in the hold."),
    _rule("restraint-left-down", "At the end a restraint of a loaded bay is down."),
    _rule("restraint-left-wrong", "At the end a restraint that holds no unit is not as it must be left."),
    _rule("switch-left-on", "At the end power is on, or another control that stays is not at rest."),
    _rule("panel-left-open", "At the end a panel is open."),
    _rule("door-left-open", "At the end a door is open."),
    _rule("person-left-inside", "At the end somebody may be in the hold."),
)
"""Every rule of this stage, in the order in which the list of rules shows them."""

SEVERITY = {rule.name: rule.severity for rule in RULES}
"""How grave each rule's findings are."""
