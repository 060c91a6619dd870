"""A page as plain text: only for reading the golden pages, with everything that a page says."""

from __future__ import annotations

from procgen.results.page import PageBlock, PageStep, PageWarning, ProcedurePage


def plain(page: ProcedurePage) -> str:
    """The page as text, one thing on a line."""
    lines = [page.title, "units: " + ", ".join(f"{u} {t} in {b}" for u, t, b in page.units)]
    for warning in page.warnings:
        lines += _warning(warning, "")
    for block in page.blocks:
        lines += ["", *_block(block)]
    return "\n".join(lines) + "\n"


def _block(block: PageBlock) -> list[str]:
    lines = [f"{block.letter} · {block.title} ({len(block.steps)}) [{block.kind}]"]
    if block.intro:
        lines.append(f"  {block.intro}")
    for warning in block.warnings:
        lines += _warning(warning, "  ")
    for step in block.steps:
        lines += _step(step)
    return lines


def _warning(warning: PageWarning, indent: str) -> list[str]:
    said = " ".join(part for part in (warning.hazard, warning.consequence, warning.avoid) if part)
    return [f"{indent}{warning.signal.upper()} · {warning.title}", f"{indent}  {said}"]


def _step(step: PageStep) -> list[str]:
    lines: list[str] = []
    for warning in step.warnings:
        lines += _warning(warning, "  ")
    who = f" [{step.who}]" if step.who else ""
    marks = f" ({', '.join(step.marks)})" if step.marks else ""
    lines.append(f"  {step.number}. {step.text}{who}{marks}")
    lines += [f"     why: {step.why}"] if step.why else []
    lines += [f"     {step.done_when}"] if step.done_when else []
    lines += [f"     If not: {step.if_not}"] if step.if_not else []
    lines += [f"     {step.then}"] if step.then else []
    return lines
