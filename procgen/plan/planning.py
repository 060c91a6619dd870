"""From a task to its plan, or to the reasons why there is none."""

from __future__ import annotations

from procgen.plan.course import course_of
from procgen.plan.goal import Task, objections
from procgen.plan.machine import machine
from procgen.plan.steps import write_steps
from procgen.plan.writer import Course
from procgen.results.plan import NoPlan, Plan


def planned(task: Task) -> Plan | NoPlan:
    """The plan for a task, or the reasons why there is none."""
    hold, operation, start = task.hold, task.operation, task.start
    reasons = objections(task)
    if reasons:
        return NoPlan(hold.name, operation, reasons)
    made = machine(hold, start)
    course = course_of(task, made)
    if not isinstance(course, Course):
        return NoPlan(hold.name, operation, course)
    steps = write_steps(made, start, course, task.makes_safe)
    return Plan(hold.name, operation, task.units, start, steps, task.aboard, course.put_back)
